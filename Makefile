# Two commands do everything on a fresh machine: `make demo` and `make test`.
PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
# without notes on what went well, and without what a machine's own settings make it warn of
PIP := $(BIN)/python -m pip --disable-pip-version-check -qq
NPM_CI := npm ci --no-audit --no-fund --loglevel=error
PORT ?= 8360
WORKERS ?= $(shell nproc 2>/dev/null || echo 2)
STATIC := backend/cueladder/static/index.html
SOURCES := $(shell find frontend backend/cueladder/locale -name node_modules -prune -o -type f -print)

.DELETE_ON_ERROR:
.PHONY: demo wheel test lint types front-check unit engines test-thorough test-postgresql bench bench-server texts odds study claims learning late agree shots api-types lock audit tools chromium browsers clean help

help: ## Show these targets
	@grep -hE '^[a-z-]+:.*##' $(MAKEFILE_LIST) | awk -F ':.*## ' '{printf "%-16s %s\n", $$1, $$2}'

demo: ## Make the demo club and serve it on localhost
	@$(MAKE) -s -j2 $(VENV)/.runs $(STATIC)
	@PYTHONPATH=backend $(BIN)/python -m seed_demo --port $(PORT)

wheel: $(VENV)/.runs $(STATIC) ## One file in dist/ to install where there is no Node; `cueladder demo` is in it
	@echo "Building the wheel …"
	@$(PIP) wheel --no-deps --wheel-dir dist .
	@ls dist/*.whl

test: $(BIN)/.installed frontend/node_modules/.installed $(STATIC) chromium ## Everything once, real Chromium included (five minutes on two cores)
	@$(BIN)/python -m tests.side_by_side "$(MAKE) -s lint" "$(MAKE) -s types" \
	  "$(MAKE) -s front-check" "$(MAKE) -s unit"

lint: $(BIN)/.installed
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .

types: $(BIN)/.installed
	$(BIN)/mypy

front-check: frontend/node_modules/.installed
	cd frontend && npm run check

unit: $(BIN)/.installed $(STATIC)
	$(BIN)/pytest -n $(WORKERS) --dist worksteal --durations 10 -m "not thorough"

test-thorough: $(BIN)/.installed $(STATIC) chromium ## Tests that try in many ways, or for long, what `make test` tries once
	$(BIN)/pytest -n $(WORKERS) --dist worksteal --durations 10 -m thorough

engines: $(BIN)/.installed $(STATIC) browsers ## The main stories and some kills in Chromium, WebKit and Firefox
	$(BIN)/pytest -n 0 --engines tests/browser/engines

test-postgresql: $(BIN)/.installed ## What `make test` runs on SQLite alone, on PostgreSQL
	$(BIN)/pytest -n $(WORKERS) --dist worksteal --postgresql

bench: $(BIN)/.installed $(STATIC) browsers ## The phone against its bars, and 500 kills of each browser, 100 of Firefox (hours)
	$(BIN)/python -m tests.bench
	$(BIN)/python -m tests.faults.kill_browser --engine chromium --kills 500
	$(BIN)/python -m tests.faults.kill_browser --engine webkit --kills 500
	$(BIN)/python -m tests.faults.kill_browser --engine firefox --kills 100

bench-server: $(BIN)/.installed ## The server against its bars and its faults (half an hour)
	$(BIN)/python -m tests.bench.server_ingest
	$(BIN)/python -m tests.bench.server_peer
	$(BIN)/python -m tests.bench.server_load
	$(BIN)/python -m tests.bench.desk
	$(BIN)/python -m tests.bench.server_growth --sizes 10000 100000 1000000 5000000
	$(BIN)/python -m tests.bench.learn
	$(BIN)/python -m tests.faults.server_kill
	$(BIN)/python -m tests.faults.server_proxy
	$(BIN)/python -m tests.faults.server_fuzz

texts: $(BIN)/.installed ## Bring the catalogues up to the code, and list what is left to translate
	@$(BIN)/python -m tests.make_texts

api-types: $(BIN)/.installed frontend/node_modules/.installed ## Generate the phone's types of the server's replies
	@$(BIN)/python -m tests.make_api_types

odds: $(BIN)/.installed ## Print what the rules do
	$(BIN)/cueladder odds

study: $(BIN)/.installed ## The experiment behind the default rules (minutes)
	$(BIN)/python -m seed_demo.study --out study

learning: $(BIN)/.installed ## How often the ranges of what lessons teach hold, on planted clubs (minutes)
	$(BIN)/python -m tests.learning

claims: $(BIN)/.installed ## Try every statement on simulated seasons, print how often it errs, write the guide's page
	$(BIN)/python -m tests.claims --write

late: $(BIN)/.installed $(STATIC) chromium ## The browser tests, each answer to the page 150 ms late: finds a test that looks too soon
	CUELADDER_LATE=150 $(BIN)/pytest -n $(WORKERS) --dist worksteal tests/browser

agree: $(BIN)/.installed frontend/node_modules/.installed ## Phone against server on 100,000 random histories, and every property on many examples
	$(BIN)/python -m tests.agree
	CUELADDER_EXAMPLES=30 $(BIN)/pytest -n $(WORKERS) -m hypothesis

shots: $(BIN)/.installed $(STATIC) browsers ## Retake the pictures in the README and the guide
	$(BIN)/python -m seed_demo.shots

lock: $(BIN)/.installed ## Renew the list of what servers install, with hashes (needs the network; then run the tests)
	$(BIN)/pip-compile --quiet --extra server --generate-hashes --strip-extras --no-header \
	  --no-emit-index-url --no-emit-trusted-host --no-emit-options --upgrade \
	  --output-file backend/requirements.lock pyproject.toml

audit: $(BIN)/.installed frontend/node_modules/.installed ## Known faults in what we depend on (needs the network: without it nothing is checked, and it fails)
	$(BIN)/python -m tests.audit

tools:
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null || \
	  { echo "Cue Ladder needs Python 3.11 or later as $(PYTHON) (set PYTHON=...)."; exit 1; }
	@$(PYTHON) -c 'import ensurepip, venv' 2>/dev/null || \
	  { echo "Cue Ladder needs Python's venv module (on Debian: apt install python3-venv)."; exit 1; }
	@node -e 'process.exit(Number(process.versions.node.split(".")[0]) < 20 ? 1 : 0)' 2>/dev/null || \
	  { echo "Cue Ladder needs Node.js 20 or later."; exit 1; }
	@command -v npm >/dev/null || { echo "Cue Ladder needs npm, which comes with Node.js."; exit 1; }

# By Debian's packages; on other systems: install the browsers by its own means.
APT := [ "$$(id -u)" = 0 ] && command -v apt-get >/dev/null && apt-get update -qq && \
  apt-get install -y -qq

chromium:
	@command -v chromium >/dev/null && command -v chromium-headless-shell >/dev/null || \
	  { $(APT) chromium chromium-headless-shell fonts-dejavu >/dev/null; } || \
	  command -v chromium >/dev/null || \
	  { echo "The browser tests need Chromium: install your system's 'chromium' package."; exit 1; }

# WebKit and Firefox run the main stories and the kills; tests say so where one is missing.
browsers: chromium
	@{ command -v firefox-esr && command -v WebKitWebDriver && command -v Xvfb && \
	  /usr/bin/python3 -c 'import gi; gi.require_version("WebKit2", "4.1")'; } >/dev/null 2>&1 || \
	  { $(APT) firefox-esr webkit2gtk-driver gir1.2-webkit2-4.1 python3-gi xvfb >/dev/null; } || true

# what the program needs to run: the very versions that servers install
$(VENV)/.runs: backend/requirements.lock | tools
	@echo "Installing what the server needs …"
	@test -x $(BIN)/python || $(PYTHON) -m venv $(VENV)
	@$(PIP) install --no-deps --no-compile -r backend/requirements.lock
	@touch $@

# the program itself on top of it, and what checks it
$(BIN)/.installed: pyproject.toml $(VENV)/.runs
	@echo "Installing what the tests need (a minute or two) …"
	@$(PIP) install -e '.[dev,server]'
	@$(BIN)/python -m compileall -qq $(VENV)/lib || true
	@touch $@

# what builds the front end
frontend/node_modules/.builds: frontend/package.json frontend/package-lock.json | tools
	@echo "Installing what builds the front end …"
	@cd frontend && $(NPM_CI) --omit=dev >/dev/null
	@touch $@

# that, and what checks it
frontend/node_modules/.installed: frontend/package.json frontend/api-types/package.json frontend/package-lock.json | tools
	@echo "Installing what builds and checks the front end …"
	@cd frontend && $(NPM_CI) >/dev/null
	@touch frontend/node_modules/.builds $@

$(STATIC): $(SOURCES) frontend/node_modules/.builds
	@echo "Building the front end …"
	@cd frontend && npm run --silent build -- --logLevel warn
	@touch $@

clean: ## Remove everything that was built
	rm -rf $(VENV) dist frontend/node_modules backend/cueladder/static study .pytest_cache .mypy_cache .ruff_cache
