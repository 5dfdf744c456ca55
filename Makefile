# Two commands set everything up: `make demo` and `make test`. Windows without make: see README.md.
PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
PIP := $(BIN)/python -m pip install --quiet --disable-pip-version-check --constraint constraints.txt
CHROMIUM ?= $(shell command -v chromium || command -v chromium-browser)

# Small matrices: more threads of one process only wait for each other.
export OPENBLAS_NUM_THREADS := 1
export OMP_NUM_THREADS := 1

.PHONY: help demo test check coverage search app generated format bench dynamics fit-study screenshots validation clean

help: ## say what there is
	@grep -E '^[a-z-]+:.*## ' $(MAKEFILE_LIST) | sed 's/:.*## /\t/' | expand -t 14

$(VENV)/made:
	$(PYTHON) -m venv $(VENV) || ($(PYTHON) -m pip install --user virtualenv && $(PYTHON) -m virtualenv $(VENV))
	@touch $@

$(VENV)/core: $(VENV)/made pyproject.toml constraints.txt
	$(PIP) --editable .
	@touch $@

$(VENV)/app: $(VENV)/core
	$(PIP) --editable '.[app]'
	@touch $@

$(VENV)/dev: $(VENV)/core
	$(PIP) --editable '.[dev]'
	@touch $@

demo: $(VENV)/core ## check the embedded demo lift and print the answer
	@$(BIN)/liftcalc demo

app: $(VENV)/app ## open the pages in a browser, for this computer only
	@$(BIN)/liftcalc app

test: $(VENV)/dev ## run all tests (browser journeys only where Chromium is found)
	$(BIN)/python -m pytest -n auto --ignore=tests/browser --ignore=tests/school $(LEAVE)
ifeq ($(CHROMIUM),)
	$(BIN)/python -m pytest -n auto tests/school
	@echo "No Chromium found: the browser journeys are left out. Install chromium to run them."
else
	@# Two journeys at a time, each with its own server and browser: they mostly wait for a page, and
	@# the school's keys are derived again meanwhile.
	nice $(BIN)/python -m pytest -n auto tests/school & school=$$!; \
	CHROMIUM=$(CHROMIUM) $(BIN)/python -m pytest -n 2 --dist worksteal tests/browser \
	|| { kill $$school; exit 1; }; \
	wait $$school
endif

check: $(VENV)/dev ## format, lint, types, import arrows, freshness, then the tests
	$(BIN)/ruff format --check .
	$(BIN)/ruff check .
	$(BIN)/mypy
	$(BIN)/lint-imports --no-logo
	$(BIN)/python -m tests.write_nomenclature --check
	@# The page of validation is checked by running published, physics and everyday tests: once is enough.
	$(BIN)/python -m tests.write_validation --check & proof=$$!; \
	$(MAKE) test LEAVE="--ignore=tests/published --ignore=tests/physics --ignore=tests/judgement/test_lifts.py" || { kill $$proof; exit 1; }; \
	wait $$proof

coverage: $(VENV)/dev ## how much of liftcalc/ the unit tests run, and whether it fell
	$(BIN)/coverage run -m pytest tests/unit
	$(BIN)/coverage report

search: $(VENV)/dev ## look for failures with fresh random examples, ten times as many as make test
	nice $(BIN)/python -m pytest -n auto --hypothesis-profile=long tests/property tests/physics tests/published
	nice $(BIN)/python -m tests.judgement.silence --pairs 20000

generated: $(VENV)/dev ## write the pages of nomenclature and validation anew
	$(BIN)/python -m tests.write_nomenclature
	$(BIN)/python -m tests.write_options
	$(BIN)/python -m tests.write_validation

format: $(VENV)/dev ## format the code
	$(BIN)/ruff format .
	$(BIN)/ruff check --fix .

bench: $(VENV)/dev ## measure every speed promise in one run, into build/bench.json
	$(BIN)/python -m benchmarks.run

dynamics: $(VENV)/dev ## set what the tool allows in motion, 660 cases, into build/dynamics.json
	$(BIN)/python -m dynamics.campaign

fit-study: $(VENV)/dev ## how well facts tell a machine: 250 hidden ones, into build/fit_study.json
	$(BIN)/python -m studies.fit

screenshots: $(VENV)/dev ## pictures of every page, into docs/pictures
	CHROMIUM=$(CHROMIUM) $(BIN)/python -m tests.browser.screenshots

clean: ## remove what was made
	rm -rf build dist .venv .pytest_cache .mypy_cache .ruff_cache .hypothesis .coverage
