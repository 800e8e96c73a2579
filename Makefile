# Each target does all the set-up it needs. A machine needs only make and Python 3.11 or newer with venv and pip.
PYTHONS := python3.13 python3.12 python3.11 python3
BIN := .venv/bin
READY := .venv/ready
DEMO := out/harbour-lights

.PHONY: help setup demo test bench clean

help:
	@echo "make demo   plan the demo quilt and print its job sheet"
	@echo "make test   run all checks: format, lint, types, tests"
	@echo "make bench  time the planning of quilts of several sizes"
	@echo "make setup  only prepare .venv, with .venv/bin/piecewright"
	@echo "make clean  remove .venv, out and everything else that was made here"

setup: $(READY)

$(READY): pyproject.toml constraints.txt
	@if ! $(BIN)/python -c '' 2>/dev/null; then \
		for python in $(PYTHONS); do \
			if $$python -c 'import ensurepip, sys, venv; sys.exit(sys.version_info < (3, 11))' 2>/dev/null; then \
				found=$$python; break; \
			fi; \
		done; \
		if [ -z "$$found" ]; then \
			echo "Expected Python 3.11 or newer with venv and pip, found none of: $(PYTHONS)." \
				"Install one, or name yours: make setup PYTHONS=/path/to/python3" >&2; \
			exit 1; \
		fi; \
		echo "Preparing .venv with $$($$found --version)"; \
		$$found -m venv --clear .venv; \
	fi
	$(BIN)/python -m pip install --quiet --disable-pip-version-check -c constraints.txt -e '.[test]'
	@touch $(READY)

demo: setup
	$(BIN)/piecewright plan examples/harbour-lights.toml --out $(DEMO)
	@echo "The job sheet to print: $(DEMO)/job-sheet.pdf"

test: setup
	$(BIN)/ruff format --check .
	$(BIN)/ruff check .
	$(BIN)/mypy
	$(BIN)/pytest -n 2

bench: setup
	$(BIN)/python -m benchmarks

clean:
	rm -rf .venv out build dist src/*.egg-info .pytest_cache .mypy_cache .ruff_cache .hypothesis
	find src tests benchmarks -name __pycache__ -type d -prune -exec rm -rf {} + 2>/dev/null || true
