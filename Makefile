# The two commands that matter: make demo, make test.  `make help` lists the rest.
PYTHON ?= python3
UV_VERSION := 0.13.9
BIN := .venv/bin

# Everything that runs keeps its settings and caches below build/, not in the home folder.
HOUSE := $(CURDIR)/build/home
export MPLCONFIGDIR := $(HOUSE)/matplotlib
export IPYTHONDIR := $(HOUSE)/ipython
export JUPYTER_CONFIG_DIR := $(HOUSE)/jupyter/config
export JUPYTER_DATA_DIR := $(HOUSE)/jupyter/data
export JUPYTER_RUNTIME_DIR := $(HOUSE)/jupyter/runtime
export JUPYTER_PLATFORM_DIRS := 1
# Some machines forbid it, and then every one of the many processes compiles all it imports.
export PYTHONDONTWRITEBYTECODE :=
export PATH := $(CURDIR)/$(BIN):$(PATH)

.PHONY: help demo test tests study benches site wheels server server-demo check units garage bench mutants pins clean

help:
	@sed -n 's/^## //p' Makefile

## make demo    build the course, invent a class, mark it, show the report
demo: .venv/ready
	@.ci/system bwrap
	@$(BIN)/fuelmarks demo --course course --into demo

## make test    style, types and every test, the browser ones included
test: .venv/ready-test build/core/ready
	@.ci/system bwrap chromium fonts node npm postgresql systemd-analyze unshare useradd
	@$(MAKE) --no-print-directory --jobs 2 check tests

tests: .venv/ready-test
	$(BIN)/pytest -n 3 --dist loadfile --no-loadscope-reorder

## make check   style, types, who may import whom, and what is declared
check: .venv/ready-test
	$(BIN)/ruff check
	$(BIN)/ruff format --check
	$(BIN)/lint-imports --no-logo --cache-dir build/imports
	$(BIN)/deptry widgets --config widgets/pyproject.toml
	$(BIN)/deptry grader --config grader/pyproject.toml
	$(BIN)/mypy

## make study   learn alone: the course as a map, answers told at once, progress kept
study: .venv/ready
	@$(BIN)/fuelmarks study --course course --into my-course

## make benches every simulator as a page of its own in build/benches, for a phone or a projector
benches: .venv/ready
	$(BIN)/python -m fuelcircuits.benches.frame.page --into build/benches

## make site    the course as a website with every simulator live in it, for any web server
site: .venv/ready-site build/core/ready
	@$(BIN)/python -m course.site.build --into build/site --core build/core
	@echo "Look at it: $(BIN)/python -m http.server 8000 --directory build/site"

## make wheels  both packages in dist/: fuelcircuits for trainees, fuelmarks for instructors
wheels: .venv/uv
	@$(BIN)/uv build --quiet --system-certs --wheel --all-packages --out-dir dist
	@ls dist/*.whl

## make server  (root) set the class server up on this computer, and start it: CLASS=class.csv
server: .venv/ready-server
	@.ci/system bwrap node npm useradd
	@$(BIN)/fuelmarks server setup --course course $(if $(CLASS),--class "$(CLASS)") $(SERVER)
	@$(BIN)/fuelmarks server start

## make server-demo  (root) the class server in a box: invented trainees, one round, nothing left
server-demo: .venv/ready-server
	@.ci/system bwrap node npm useradd unshare
	@$(BIN)/fuelmarks server demo --course course --into build/server-demo

## make units   build the trainees' notebooks from course/units
units: .venv/ready
	$(BIN)/fuelmarks build --course course

## make garage  work out anew what every fault shows, unit 12's readings, and the rigs to scale from
garage: .venv/ready
	$(BIN)/python -m fuelmarks.questions.diagnosis.garage course/rigs

## make bench   measure speed, one line a measure, and write bench.json
bench: .venv/ready-test
	@.ci/system bwrap chromium fonts
	@$(BIN)/python -m tests.benchmarks

## make mutants spoil what marks and what ranks, line by line, and list what no test notices (slow)
mutants: .venv/ready-test
	@rm -rf build/mutants/src build/mutants/tests && mkdir -p build/mutants/src
	@cp -r widgets/fuelcircuits grader/fuelmarks build/mutants/src
	@cp -r tests pyproject.toml build/mutants
	@cd build/mutants && nice timeout 40m mutmut run; ended=$$?; \
	  mutmut results | grep -v "not checked"; exit $$ended

## make pins    choose newer versions of everything and pin them
pins: .venv/uv
	$(BIN)/uv pip compile --quiet --system-certs --universal --python-version 3.11 --no-header --no-annotate \
	  --no-emit-index-url --no-emit-package fuelcircuits --upgrade --all-extras \
	  --group test --group site widgets/pyproject.toml grader/pyproject.toml -o .ci/constraints.txt

## make clean   remove all that the other commands made
clean:
	rm -rf .venv build demo dist bench.json

INSTALL = $(BIN)/uv pip install --quiet --system-certs --python $(BIN)/python -c .ci/constraints.txt \
	  -e "widgets[pictures]" -e grader

# The browser's Python, as npm has it under its pin.
CORE := widgets/fuelcircuits/benches/live/core
# npm knows no certificates but its own unless it is told where the machine keeps them.
AUTHORITIES := $(wildcard /etc/ssl/certs/ca-certificates.crt)
TRUST := $(if $(AUTHORITIES),NODE_EXTRA_CA_CERTS="$${NODE_EXTRA_CA_CERTS:-$(AUTHORITIES)}")
build/core/ready: $(CORE)/package.json $(CORE)/package-lock.json
	@.ci/system node npm
	@mkdir -p build/core && cp $^ build/core
	@$(TRUST) npm --prefix build/core ci --silent --ignore-scripts --no-audit --no-fund
	@touch $@

.venv/uv: Makefile
	@PYTHON="$(PYTHON)" .ci/system python3 venv
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' \
	  || { echo "Python must be 3.11 or newer, got $$($(PYTHON) --version)"; exit 1; }
	@echo "Making .venv, and installing what is needed into it; the first time this takes a minute"
	@$(PYTHON) -m venv .venv
	@$(BIN)/python -m pip install --quiet uv==$(UV_VERSION)
	@touch $@

.venv/ready: .venv/uv widgets/pyproject.toml grader/pyproject.toml .ci/constraints.txt
	@$(INSTALL)
	@touch $@

# All at once, in one go; the others find nothing left to install.
.venv/ready-test: .venv/uv pyproject.toml widgets/pyproject.toml grader/pyproject.toml .ci/constraints.txt
	@$(INSTALL) -e "grader[cluster,postgres,server]" --group test --group site
	@touch .venv/ready .venv/ready-server .venv/ready-site $@

.venv/ready-server: .venv/ready
	@$(INSTALL) -e "grader[server]"
	@touch $@

.venv/ready-site: .venv/ready pyproject.toml
	@$(INSTALL) --group site
	@touch $@
