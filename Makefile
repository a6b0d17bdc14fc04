# Two commands do everything on a fresh machine: `make demo` and `make test`.
PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
PORT ?= 8360
STATIC := backend/cueladder/static/index.html
SOURCES := $(shell find frontend backend/cueladder/locale -path frontend/node_modules -prune -o -type f -print)

.DELETE_ON_ERROR:
.PHONY: demo test lint types front-check unit bench texts odds study agree shots audit tools chromium clean help

help: ## Show these targets
	@grep -hE '^[a-z-]+:.*##' $(MAKEFILE_LIST) | awk -F ':.*## ' '{printf "%-12s %s\n", $$1, $$2}'

demo: $(BIN)/.installed $(STATIC) ## Make the demo club and serve it on localhost
	@$(BIN)/python -m seed_demo --port $(PORT)

test: $(BIN)/.installed chromium lint types front-check unit ## Everything, real Chromium included

lint: $(BIN)/.installed
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .

types: $(BIN)/.installed
	$(BIN)/mypy

front-check: frontend/node_modules/.installed
	cd frontend && npm run check

unit: $(BIN)/.installed $(STATIC)
	$(BIN)/pytest -n 2 --dist loadgroup

bench: $(BIN)/.installed $(STATIC) chromium ## The phone against its bars, and 500 kills of the browser (an hour)
	$(BIN)/python -m tests.bench
	$(BIN)/python -m tests.faults.kill_browser --kills 500

bench-server: $(BIN)/.installed ## The server against its bars and its faults (half an hour)
	$(BIN)/python -m tests.bench.server_ingest
	$(BIN)/python -m tests.bench.server_peer
	$(BIN)/python -m tests.bench.server_load
	$(BIN)/python -m tests.bench.server_growth --sizes 10000 100000 1000000 5000000
	$(BIN)/python -m tests.faults.server_kill
	$(BIN)/python -m tests.faults.server_proxy
	$(BIN)/python -m tests.faults.server_fuzz

texts: $(BIN)/.installed ## Bring the catalogues up to the code, and list what is left to translate
	@$(BIN)/python -m tests.make_texts

odds: $(BIN)/.installed ## Print what the rules do
	$(BIN)/cueladder odds

study: $(BIN)/.installed ## The experiment behind the default rule (minutes)
	$(BIN)/python -m seed_demo.study --out study

agree: $(BIN)/.installed frontend/node_modules/.installed ## Phone against server on 100,000 random histories
	$(BIN)/python -m tests.agree

shots: $(BIN)/.installed $(STATIC) chromium ## Retake the pictures in the README and the guide
	$(BIN)/python -m seed_demo.shots

audit: $(BIN)/.installed frontend/node_modules/.installed ## Known faults in what we depend on (needs the network)
	$(BIN)/python -m tests.audit

tools:
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null || \
	  { echo "Cue Ladder needs Python 3.11 or later as $(PYTHON) (set PYTHON=...)."; exit 1; }
	@$(PYTHON) -c 'import ensurepip, venv' 2>/dev/null || \
	  { echo "Cue Ladder needs Python's venv module (on Debian: apt install python3-venv)."; exit 1; }
	@node -e 'process.exit(Number(process.versions.node.split(".")[0]) < 20 ? 1 : 0)' 2>/dev/null || \
	  { echo "Cue Ladder needs Node.js 20 or later."; exit 1; }
	@command -v npm >/dev/null || { echo "Cue Ladder needs npm, which comes with Node.js."; exit 1; }

chromium:
	@command -v chromium >/dev/null || \
	  { [ "$$(id -u)" = 0 ] && command -v apt-get >/dev/null && \
	    apt-get update -qq && apt-get install -y -qq chromium fonts-dejavu >/dev/null; } || \
	  { echo "The browser tests need Chromium: install your system's 'chromium' package."; exit 1; }

$(BIN)/.installed: pyproject.toml | tools
	@test -x $(BIN)/python || $(PYTHON) -m venv $(VENV)
	@$(BIN)/python -m pip install --quiet --disable-pip-version-check -e '.[dev,server]'
	@touch $@

frontend/node_modules/.installed: frontend/package.json frontend/package-lock.json | tools
	@cd frontend && npm ci --no-audit --no-fund --loglevel=error
	@touch $@

$(STATIC): $(SOURCES) frontend/node_modules/.installed
	@cd frontend && npm run build --silent
	@touch $@

clean: ## Remove everything that was built
	rm -rf $(VENV) frontend/node_modules backend/cueladder/static study .pytest_cache .mypy_cache .ruff_cache
