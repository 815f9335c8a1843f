"""What pages were printed with.

Takes in a project; gives out the version of guidegen and a digest of its code and of the templates.
Refuses to name what else has a hand in it, such as the type setter: whether the bytes are the same
is for their hashes to say.
"""

import hashlib
from pathlib import Path

import guidegen
from guidegen.build.manifest import digest_of_file, files_in, list_of
from guidegen.build.project import Project

_DIGITS = 12


def program_of(project: Project) -> str:
    """Return version and digest, as ``26.1.0+0123456789ab``."""
    package = Path(guidegen.__file__).parent
    code = {path.relative_to(package).as_posix(): path for path in package.rglob("*.py")}
    templates = {name: project.templates / name for name in files_in(project.templates)}
    listed = {
        **{f"guidegen/{name}": digest_of_file(path) for name, path in code.items()},
        **{f"site_templates/{name}": digest_of_file(path) for name, path in templates.items()},
        "mkdocs.yml": digest_of_file(project.config_file),
    }
    digest = hashlib.sha256(list_of(listed)).hexdigest()
    return f"{guidegen.__version__}+{digest[:_DIGITS]}"
