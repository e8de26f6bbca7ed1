# Everything a contributor runs. `make` alone lists it.

PYTHON ?= python3
VENV   := .venv
BIN    := $(VENV)/bin
LOCKED := $(VENV)/.locked
READY  := $(VENV)/.project
UV     := UV_PYTHON_DOWNLOADS=never UV_NO_CONFIG=1 $(BIN)/uv
LOCKS  := lock/boot.txt lock/dev.txt

# Floors of the coverage gate, in per cent (branches included).
COVER_ALL  := 95
COVER_CORE := 100
CORE       := */physics/*,*/units/*,*/uncertain/*

# Compiled bytecode halves the start of every command; an inherited setting must not forbid it.
unexport PYTHONDONTWRITEBYTECODE

.DEFAULT_GOAL := help
.PHONY: help setup demo browser test check pictures bench lock clean
.DELETE_ON_ERROR:

help: ## list the goals
	@awk -F ':.*## ' '/^[a-z]+:.*## / { printf "  make %-8s %s\n", $$1, $$2 }' $(MAKEFILE_LIST)

setup: $(READY) ## make .venv with the locked packages and this project in it

$(BIN)/python:
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' || \
	  { echo "ozonewright needs Python 3.11 or newer; try: make PYTHON=python3.12 $(MAKECMDGOALS)" >&2; exit 1; }
	@$(PYTHON) -m venv $(VENV) || \
	  { rm -rf $(VENV); echo "$(PYTHON) can't make a virtual environment here. On Debian or Ubuntu: apt install python3-venv" >&2; exit 1; }

$(LOCKED): $(LOCKS) | $(BIN)/python
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --require-hashes --only-binary :all: -r lock/boot.txt
	$(UV) pip sync --quiet --python $(BIN)/python --require-hashes --only-binary :all: --compile-bytecode $(LOCKS)
	@touch $@

# The sync above takes out what no lock names, so the project goes in after it.
$(READY): pyproject.toml $(LOCKED)
	$(UV) pip install --quiet --python $(BIN)/python --no-deps --no-build-isolation --editable .
	@touch $@

demo: setup ## write the worked example into build/demo
	@$(BIN)/ozonewright demo build/demo

# Debian's own browser, as root and only when there is none; nothing is fetched by the test library.
browser:
	@command -v chromium || command -v chromium-browser || command -v google-chrome || { \
	  [ "$$(id -u)" = 0 ] && command -v apt-get && \
	  echo "installing chromium for the browser tests" >&2 && apt-get update -qq && \
	  DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends chromium fonts-dejavu-core; } > /dev/null || \
	  echo "no chromium here: the browser tests will be skipped" >&2

test: setup browser ## the whole suite, with the coverage gate
	$(BIN)/python -m pytest -n auto --dist loadfile --no-loadscope-reorder --cov --cov-report=
	@$(BIN)/coverage report --fail-under=$(COVER_ALL)
	@$(BIN)/coverage report --include='$(CORE)' --fail-under=$(COVER_CORE) > /dev/null || \
	  { $(BIN)/coverage report --include='$(CORE)'; echo "physics, units and uncertain must be covered to $(COVER_CORE) %" >&2; exit 1; }

check: setup ## format, lint, types and the fast tests
	$(BIN)/ruff format --check .
	$(BIN)/ruff check .
	$(BIN)/mypy
	$(BIN)/python -m pytest -q -m 'not slow and not browser'

pictures: setup browser ## take the README's pictures anew, by the test that walks through them
	OZONEWRIGHT_PICTURES=$(CURDIR)/docs/pictures $(BIN)/python -m pytest -q tests/browser/test_pictures.py

bench: setup ## measure what the docs claim about speed and agreement
	$(BIN)/python benchmarks/run.py

COMPILE = $(UV) pip compile --quiet --universal --python-version 3.11 --generate-hashes \
  --no-emit-index-url --no-emit-find-links --custom-compile-command 'make lock'

lock: $(BIN)/uv ## resolve pyproject.toml anew (UPGRADE=--upgrade takes newer releases)
	$(COMPILE) $(UPGRADE) --group boot -o lock/boot.txt
	$(COMPILE) $(UPGRADE) pyproject.toml -o lock/run.txt
	$(COMPILE) $(UPGRADE) --constraint lock/run.txt pyproject.toml --group dev -o lock/dev.txt

# The very first lock has nothing to install from.
$(BIN)/uv: | $(BIN)/python
	$(BIN)/python -m pip install --quiet --disable-pip-version-check uv

clean: ## remove .venv, caches and build output
	rm -rf $(VENV) build dist htmlcov .coverage .mypy_cache .ruff_cache .pytest_cache .hypothesis
	find src tests benchmarks -name __pycache__ -type d -prune -exec rm -rf {} + 2>/dev/null || true
