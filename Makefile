# `make demo` shows the app, `make workshop` runs it for real, `make test` checks everything.
PYTHON ?= python3
PORT ?= 8000
BIN := .venv/bin
# Compiled modules are kept, whatever the machine says: else every process compiles the whole app again.
export PYTHONDONTWRITEBYTECODE =

.PHONY: demo workshop test checks units served postgres approve bench long mutants messages screenshots lock

demo: .venv/run.stamp
	@sh .ci/pango
	@$(BIN)/python manage.py demo --port $(PORT) --serve

# For real, on a Debian machine: sudo make workshop. Asks what only the workshop knows.
workshop: .venv/run.stamp
	@$(BIN)/python manage.py workshop $(SAY)

# The tools look at the text on one core while the tests begin on the other.
test: .venv/test.stamp
	@$(MAKE) --no-print-directory -j2 checks units

checks: .venv/test.stamp
	@$(BIN)/ruff check .
	@$(BIN)/ruff format --check .
	@$(BIN)/mypy
	@$(BIN)/lint-imports
	@$(BIN)/python manage.py makemigrations --check --dry-run

# A process that is done takes over what another has left.
PYTEST = $(BIN)/python -m pytest -n auto --dist worksteal -rs
units: .venv/test.stamp
	@$(PYTEST) -m "not bench and not long and not served"

# What starts a server, a browser or the app's own commands, and waits for them.
served: .venv/test.stamp
	@$(PYTEST) -m "served and not bench and not long"

# On PostgreSQL what may differ there: locks, words, back-up, outage, removal; the rest in `make long`.
postgres: .venv/test.stamp
	@$(BIN)/python -m tests.postgres $(PYTEST) -m "not bench and not long and not browser" \
	  tests/config/test_together.py tests/config/test_outage.py tests/jobs/backup tests/jobs/keeping tests/jobs/models tests/jobs/test_search.py tests/jobs/test_records.py

# Write anew what results, sheets and pages are held against; read what differs before it is committed.
approve: .venv/test.stamp
	@APPROVE=1 $(PYTEST) -m "not bench and not long and not served" -k let_stand

# Speed, as ratios within one run; one process, nothing else at work.
bench: .venv/test.stamp
	@$(BIN)/python -m pytest tests/bench tests/browser -m bench -s -p no:cacheprovider
	@$(BIN)/python -m tests.postgres $(BIN)/python -m pytest tests/bench/test_size.py -s -p no:cacheprovider

# The long counts, hours allowed: what `make test` runs a small part of; random examples are new ones.
long: .venv/test.stamp
	@$(PYTEST) -m "long or hypothesis" --hypothesis-profile=long
	@$(BIN)/python -m tests.postgres $(PYTEST) -m long tests/config tests/jobs/backup
	@$(BIN)/python -m tests.postgres $(PYTEST) -m "not bench and not long and not browser" \
	  tests/jobs --ignore tests/jobs/sheets --ignore tests/jobs/drawings --ignore tests/jobs/design

# Break the house at random, a hundred times, and print which breaks no test noticed.
mutants: .venv/test.stamp
	@$(BIN)/python -m tests.mutants

# Gather what is to be translated, and compile it.
messages: .venv/test.stamp
	@$(BIN)/python manage.py makemessages -l de --ignore .venv --ignore var --ignore tests --no-obsolete
	@$(BIN)/python manage.py compilemessages --ignore .venv

# The pictures of the README, made from the demo jobs in a real browser.
screenshots: .venv/test.stamp
	@$(BIN)/python -m tests.browser.screenshots

# Write the two locks anew after a requirement changed: every package with its hashes, indirect ones
# too, resolved as a machine without settings of its own would.
RESOLVE = env PIP_CONFIG_FILE=/dev/null PIP_FIND_LINKS= PIP_EXTRA_INDEX_URL= CUSTOM_COMPILE_COMMAND="make lock" \
	.venv/lock/bin/pip-compile --quiet --generate-hashes --allow-unsafe --strip-extras \
	--no-emit-index-url --no-emit-find-links --no-emit-options
lock: .venv/lock/bin/pip-compile
	@$(RESOLVE) -o requirements.lock requirements.txt
	@$(RESOLVE) -o tests/requirements.lock tests/requirements.txt

.venv/lock/bin/pip-compile: | .venv/bin/python
	@$(BIN)/python -m venv .venv/lock
	@.venv/lock/bin/pip install --quiet --disable-pip-version-check pip-tools==7.6.2

.venv/bin/python:
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' || { echo "Python 3.11 or newer is needed; here is $$($(PYTHON) --version)"; exit 1; }
	@$(PYTHON) -m venv .venv || { echo "Type: apt-get install python3-venv"; exit 1; }

.venv/run.stamp: requirements.lock | .venv/bin/python
	@$(BIN)/pip install --quiet --disable-pip-version-check --require-hashes -r requirements.lock
	@touch $@

.venv/test.stamp: tests/requirements.lock requirements.lock | .venv/bin/python
	@$(BIN)/pip install --quiet --disable-pip-version-check --require-hashes -r tests/requirements.lock
	@touch $@ .venv/run.stamp
