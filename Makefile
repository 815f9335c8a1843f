# Every recipe sets up what it needs. Windows: run the same commands from a POSIX shell.
PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
ifeq ($(OS),Windows_NT)
BIN := $(VENV)/Scripts
endif
STAMP := $(VENV)/.installed
# Every start of the program would compile its modules anew where a machine forbids to keep them.
export PYTHONDONTWRITEBYTECODE :=

.PHONY: help guides test kills check bench pictures pin clean

help:  ## list the recipes
	@grep -E '^[a-z]+:.*##' $(MAKEFILE_LIST) | sed 's/:.*##/\t/'

$(STAMP): requirements/dev.lock pyproject.toml
	test -x "$(BIN)/python" || $(PYTHON) -m venv $(VENV)
	"$(BIN)/python" -m pip install --quiet --disable-pip-version-check --require-hashes -r requirements/dev.lock
	"$(BIN)/python" -m pip install --quiet --disable-pip-version-check --no-deps --no-build-isolation -e .
	@touch $(STAMP)

guides: $(STAMP)  ## build and prove the demo fleet's site
	"$(BIN)/guidegen" build

test: $(STAMP) chromium poppler nginx libreoffice  ## run all tests
	"$(BIN)/python" -m pytest -n auto -q

kills: $(STAMP)  ## kill publish, release and import at 200 moments each of whole runs
	GUIDEGEN_KILLS=full "$(BIN)/python" -m pytest -q -s tests/pipeline/test_killed_commands.py

check: $(STAMP)  ## format, lint, types, architecture, specs
	"$(BIN)/ruff" format --check .
	"$(BIN)/ruff" check .
	"$(BIN)/mypy"
	"$(BIN)/lint-imports"
	"$(BIN)/guidegen" check

bench: $(STAMP) hugo  ## measure, as ratios in one run (BENCH=--quick or --large)
	"$(BIN)/python" benchmarks/build_fleet.py $(BENCH)
	"$(BIN)/python" benchmarks/print_cards.py
	"$(BIN)/python" benchmarks/serve_edit.py
	"$(BIN)/guidegen" build && "$(BIN)/python" benchmarks/tablet_pages.py && "$(BIN)/python" benchmarks/size_site.py

pictures: guides chromium  ## take the README's pictures again
	"$(BIN)/python" docs/make_pictures.py

pin: $(STAMP)  ## renew the pins from pyproject.toml
	"$(BIN)/python" -m pip install --quiet uv
	"$(BIN)/uv" pip compile --quiet --universal --python-version 3.11 --generate-hashes --no-header --upgrade --extra dev pyproject.toml -o requirements/dev.lock

.PHONY: chromium
chromium:
	@command -v chromium >/dev/null 2>&1 || command -v chromium-browser >/dev/null 2>&1 || command -v google-chrome >/dev/null 2>&1 || test -n "$$GUIDEGEN_BROWSER" || \
	{ command -v apt-get >/dev/null 2>&1 && { test "$$(id -u)" = 0 || SUDO=sudo; $$SUDO apt-get update -qq && $$SUDO apt-get install -y -qq chromium; }; } || \
	{ echo "the browser tests need Chromium: install it, or name it in GUIDEGEN_BROWSER" >&2; exit 1; }

.PHONY: poppler
poppler:
	@command -v pdfinfo >/dev/null 2>&1 || \
	{ command -v apt-get >/dev/null 2>&1 && { test "$$(id -u)" = 0 || SUDO=sudo; $$SUDO apt-get update -qq && $$SUDO apt-get install -y -qq poppler-utils; }; } || \
	{ echo "the tests of paper need pdfinfo, pdffonts and pdftotext of Poppler: install poppler-utils" >&2; exit 1; }

.PHONY: libreoffice
libreoffice:
	@command -v soffice >/dev/null 2>&1 || test -n "$$GUIDEGEN_OFFICE" || \
	{ command -v apt-get >/dev/null 2>&1 && { test "$$(id -u)" = 0 || SUDO=sudo; $$SUDO apt-get update -qq && $$SUDO apt-get install -y -qq --no-install-recommends libreoffice-calc; }; } || \
	{ echo "the tests of the workbook need LibreOffice Calc: install it, or name its soffice in GUIDEGEN_OFFICE" >&2; exit 1; }

.PHONY: nginx
nginx:
	@command -v nginx >/dev/null 2>&1 || test -x /usr/sbin/nginx || \
	{ command -v apt-get >/dev/null 2>&1 && { test "$$(id -u)" = 0 || SUDO=sudo; $$SUDO apt-get update -qq && $$SUDO apt-get install -y -qq nginx-light; }; } || \
	{ echo "the tests of hosting need nginx" >&2; exit 1; }

.PHONY: hugo
hugo:
	@command -v hugo >/dev/null 2>&1 || \
	{ command -v apt-get >/dev/null 2>&1 && { test "$$(id -u)" = 0 || SUDO=sudo; $$SUDO apt-get update -qq && $$SUDO apt-get install -y -qq hugo; }; } || \
	echo "hugo is not there: its rows are left out" >&2

clean:  ## remove what was made
	rm -rf site .site.building .site.old dist .mypy_cache .pytest_cache .ruff_cache .hypothesis
