"""What a web server must say with every file of the site.

Takes in nothing; gives out the headers, and the files in which servers and static hosts read them.
Refuses every exception: no script, style or address that is not a file of the site.
"""

from collections.abc import Iterator, Mapping
from types import MappingProxyType

POLICY = MappingProxyType(
    {
        "default-src": "'none'",
        "script-src": "'self'",
        "style-src": "'self'",
        "img-src": "'self'",
        "font-src": "'self'",
        "connect-src": "'self'",
        "manifest-src": "'self'",
        "worker-src": "'self'",
        "base-uri": "'none'",
        "form-action": "'none'",
        "frame-ancestors": "'none'",
    }
)
"""Directives of Content Security Policy Level 3 (W3C)."""

HEADERS: Mapping[str, str] = MappingProxyType(
    {
        "Content-Security-Policy": "; ".join(f"{name} {value}" for name, value in POLICY.items()),
        "X-Content-Type-Options": "nosniff",
        "Referrer-Policy": "same-origin",
        "Permissions-Policy": "camera=(), geolocation=(), microphone=(), payment=(), usb=()",
        "Cross-Origin-Opener-Policy": "same-origin",
        "Cross-Origin-Resource-Policy": "same-origin",
        # A tablet asks whether a file has changed before it shows it; unchanged files cost a line.
        "Cache-Control": "no-cache",
    }
)
"""By name, for every file. What the pages may do is the same everywhere."""

HOST_FILES = ("_headers", ".htaccess")
"""Names of the files below; a host reads them and need not give them out."""

TYPES: Mapping[str, str] = MappingProxyType(
    {".webmanifest": "application/manifest+json", ".woff2": "font/woff2"}
)
"""Media types that old servers do not know, by ending (IANA)."""


def host_files() -> Iterator[tuple[str, bytes]]:
    """Yield the files at the root of the site in which hosts read the headers, by path."""
    yield HOST_FILES[0], _text("/*", *(f"  {name}: {value}" for name, value in HEADERS.items()))
    yield (
        HOST_FILES[1],
        _text(
            "# For Apache, with AllowOverride FileInfo and mod_headers.",
            *(f'Header always set {name} "{value}"' for name, value in HEADERS.items()),
            *(f"AddType {kind} {ending}" for ending, kind in TYPES.items()),
        ),
    )


def nginx_include() -> str:
    """Return the headers as nginx reads them, to be included in a ``server`` block."""
    headers = (f'add_header {name} "{value}" always;' for name, value in HEADERS.items())
    return _text("# Made by guidegen: what is said with every file.", *headers).decode()


def _text(*lines: str) -> bytes:
    return "".join(f"{line}\n" for line in lines).encode()
