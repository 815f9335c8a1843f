"""What hosts are told to say with every file."""

from pathlib import Path

from guidegen.site.host_files import HEADERS, POLICY, TYPES, host_files, nginx_include


def test_the_policy_has_no_exception() -> None:
    # CSP Level 3, 2.3: what would let in scripts or styles from within pages or from elsewhere.
    for directive, value in POLICY.items():
        assert value in {"'self'", "'none'"}, directive


def test_every_host_is_told_every_header() -> None:
    files = {path: content.decode() for path, content in host_files()}
    for name, value in HEADERS.items():
        assert f"\n  {name}: {value}\n" in files["_headers"]
        assert f'\nHeader always set {name} "{value}"\n' in files[".htaccess"]
        assert f'add_header {name} "{value}" always;\n' in nginx_include()
    for ending, kind in TYPES.items():
        assert f"\nAddType {kind} {ending}\n" in files[".htaccess"]


def test_the_page_for_hosts_is_up_to_date(project_root: Path) -> None:
    folder = project_root / "docs" / "hosting"
    assert (folder / "headers.conf").read_text(encoding="utf-8") == nginx_include()
    page = (folder / "index.md").read_text(encoding="utf-8")
    for name, value in HEADERS.items():
        assert f"| `{name}` | `{value}` |\n" in page
