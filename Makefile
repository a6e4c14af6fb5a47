# Two commands on a fresh machine: `make demo` and `make test`. Everything else follows from them.
# Only relative paths stand here: the folder's own name may hold spaces and umlauts.

PYTHON ?= python3
BIN := .venv/bin
PY := $(BIN)/python

.PHONY: help demo test lint types layers unit browser wheel proof bench docs lock clean

help:
	@echo "make demo   set everything up and open the demo studio"
	@echo "make test   set everything up and run every check"
	@echo "make proof  the long checks, seeded; their figures go to docs/validation.md"
	@echo "make bench  speed, as ratios measured in one run"

# A virtual environment with what the program needs; renewed when the lock changes.
.venv/.run: requirements/run.txt pyproject.toml
	@$(PYTHON) -c 'import sys; sys.exit(0 if sys.version_info >= (3, 11) else "Python 3.11 or later is needed; this is " + sys.version.split()[0] + ". Name another with: make PYTHON=python3.12")'
	test -x $(PY) || $(PYTHON) -m venv .venv
	$(PY) -m pip install --quiet --disable-pip-version-check --require-hashes -r requirements/run.txt
	$(PY) -m pip install --quiet --disable-pip-version-check --no-deps --no-build-isolation --editable .
	$(PY) -m compileall -q src
	@touch $@

# The same with what the checks need.
.venv/.dev: .venv/.run requirements/dev.txt
	$(PY) -m pip install --quiet --disable-pip-version-check --require-hashes -r requirements/dev.txt
	@touch $@

# A browser for the journeys: the system's own, else installed where that is allowed.
.venv/.browser: .venv/.dev tools/find_browser.py
	$(PY) tools/find_browser.py --install
	@touch $@

demo: .venv/.run
	$(PY) -m wareboard open --demo

test: lint types layers unit browser wheel
	@echo "Every check passed."

lint: .venv/.dev
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .

# Without its cache: after models changed, the plugin for Django reads an old one wrongly.
types: .venv/.dev
	$(BIN)/mypy --cache-dir=/dev/null

layers: .venv/.dev
	$(BIN)/lint-imports

unit: .venv/.dev
	$(PY) -m pytest -n 2 -m "not browser and not server" --cov=wareboard.core --cov=wareboard.refdata --cov-report=term-missing:skip-covered --cov-fail-under=100
	$(PY) -m pytest -m "server"

browser: .venv/.browser
	$(PY) -m pytest -m "browser"

wheel: .venv/.dev
	$(PY) tools/check_wheel.py

proof: .venv/.dev
	$(PY) tools/proof.py

bench: .venv/.dev
	$(PY) benchmarks/run.py

docs: .venv/.dev
	$(PY) tools/make_validation.py

# Pins and hashes, without any registry's address. Needs uv.
lock:
	uv pip compile pyproject.toml --group build --universal --generate-hashes --no-annotate --no-header --quiet --output-file requirements/run.txt
	uv pip compile pyproject.toml --group dev --universal --generate-hashes --no-annotate --no-header --quiet --constraint requirements/run.txt --output-file requirements/dev.txt

clean:
	rm -rf .venv dist build out .coverage .pytest_cache .mypy_cache .ruff_cache .hypothesis
