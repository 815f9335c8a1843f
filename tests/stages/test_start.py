import subprocess
import sys


def test_the_program_tells_its_version_without_reading_in_what_commands_need() -> None:
    heavy = ("mkdocs", "yaml", "pydantic", "typst", "pypdfium2", "pikepdf", "jinja2", "lxml")
    code = (
        "import sys\n"
        "from guidegen.cli import commands\n"
        "commands(['--version'], standalone_mode=False)\n"
        f"print([name for name in {heavy} if name in sys.modules])\n"
    )
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert ran.stdout.splitlines()[-1] == "[]"


def test_every_command_can_be_read_in() -> None:
    ran = subprocess.run(
        [sys.executable, "-m", "guidegen", "--help"], capture_output=True, text=True, check=True
    )
    for name in ("build", "pack", "explain", "release", "cards", "numbers"):
        assert f"  {name} " in ran.stdout


def read_in_by(module: str) -> frozenset[str]:
    """Return the names of all modules that importing *module* reads in, and those around them."""
    code = f"import sys, {module}\nprint(*sys.modules)\n"
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    return frozenset(ran.stdout.split())


def test_a_build_begins_without_what_prints_or_reads_pictures_markdown_and_pdf() -> None:
    read_in = read_in_by("guidegen.commands.site")

    heavy = {"typst", "pikepdf", "segno", "fontTools", "PIL", "pypdfium2", "zxingcpp"}
    assert not (heavy | {"markdown_it", "mkdocs", "distributed", "openpyxl"}) & read_in


def test_a_check_begins_without_what_draws_and_proves_pages() -> None:
    read_in = read_in_by("guidegen.commands.check")

    assert "guidegen.build.load" in read_in
    assert not {"guidegen.site.draw", "guidegen.proof.prove", "guidegen.build.site_build"} & read_in
