"""The templates of pages as an earlier run has compiled them.

Takes in a store; gives out compiled templates to Jinja, and keeps those that it has compiled.
Refuses a template of another source, program or Python: it is compiled anew, and so is one that is
damaged.
"""

from jinja2 import BytecodeCache
from jinja2.bccache import Bucket

from guidegen.build.store import Store


class KeptTemplates(BytecodeCache):
    """Compiled templates in a store; each by its file and the checksum of its source."""

    def __init__(self, store: Store) -> None:
        """Keep them in *store*."""
        self._store = store

    def load_bytecode(self, bucket: Bucket) -> None:
        """Put what is kept into *bucket*; leave it empty if there is nothing."""
        kept = self._store.get(self._key(bucket))
        if isinstance(kept, bytes):
            # Jinja looks whether it was made by this version of itself and of Python.
            bucket.bytecode_from_string(kept)

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Keep what was compiled."""
        self._store.put(self._key(bucket), bucket.bytecode_to_string())

    def _key(self, bucket: Bucket) -> str:
        return self._store.key("template", bucket.key, bucket.checksum)
