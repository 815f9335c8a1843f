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
