# make demo   searches the demo rig and shows its shortlist
# make test   vet, staticcheck and all tests
GO      ?= go
BIN     := bin/evenswing
DEMO    := demo-run
RIG     := testdata/rigs/landing.yaml
PYTHON  ?= /usr/bin/python3

.PHONY: all build demo pictures test lint race fuzz crash large readers soak bench bench-search bench-end bench-peer motion-study cover golden clean builders

all: build

build:
	$(GO) build -o $(BIN) ./cmd/evenswing

demo: build
	rm -rf $(DEMO)
	$(BIN) search $(RIG) --out $(DEMO) --evaluations 200000
	@echo "open $(DEMO)/shortlist/index.html in a browser"

# The pictures of the README, of the first design of a small search of the demo; tests
# compare design and pictures.
pictures: build
	rm -rf bin/pictures
	$(BIN) search $(RIG) --out bin/pictures --evaluations 60000 --motions 2000
	cp bin/pictures/shortlist/01.yaml pictures/design.yaml
	$(BIN) evaluate pictures/design.yaml --sheet pictures/sheet.svg --remark "First of the demo’s shortlist; invented, not a real machine"
	$(BIN) release pictures/design.yaml --line pictures/line.svg

test: lint
	$(GO) test ./...

lint:
	$(GO) vet ./...
	$(GO) tool staticcheck ./...

race:
	$(GO) test -race ./...

# Kills one search KILLS times, and lets every step of small runs fail in turn.
KILLS   ?= 200
crash:
	EVENSWING_CRASH=$(KILLS) $(GO) test -v -count 1 -timeout 60m -run 'Crash|EveryStep' ./cmd/evenswing ./output/...

# The shortlist of a run of ROWS rows (about 160 bytes each), which stays in
# LARGE_DIR if one is named.
ROWS    ?= 5000000
large:
	EVENSWING_LARGE=$(ROWS) EVENSWING_LARGE_DIR=$(LARGE_DIR) $(GO) test -v -count 1 -timeout 60m -run '^TestLarge$$' ./cmd/evenswing

# Searches for SOAK and watches the memory: it has to stay flat and below 600 MB.
SOAK    ?= 1h
soak:
	EVENSWING_SOAK=$(SOAK) $(GO) test -v -count 1 -timeout 0 -run '^TestSoak$$' ./cmd/evenswing

# Other authors' readers read a run back: DuckDB and hyparquet (node, npm and the
# network are needed; what cannot be had is said and left out).
readers:
	EVENSWING_READERS=1 $(GO) test -v -count 1 -run '^TestReaders$$' ./cmd/evenswing

# Each target for FUZZTIME; what it finds is kept in testdata/fuzz of its package.
FUZZTIME ?= 1m
FUZZ    := space:FuzzRead space/quantity:FuzzParse space/formula:FuzzCompile search:FuzzState output/dataset:FuzzStart output/dataset:FuzzStateFile output/dataset:FuzzShard
fuzz:
	set -e; for t in $(FUZZ); do \
		$(GO) test -run '^$$' -fuzz "^$${t##*:}$$" -fuzztime $(FUZZTIME) -fuzzminimizetime 1s ./$${t%%:*}; done

bench:
	$(GO) test -run '^$$' -bench . -benchmem -count 6 ./... | tee bench.txt
	$(GO) tool benchstat bench.txt

bench-search:
	EVENSWING_BENCH_SEARCH=1 $(GO) test -v -count 1 -timeout 60m -run BenchSearch ./search

# Drift of the best designs, by the full motion, beside a search without it.
bench-drift:
	EVENSWING_BENCH_DRIFT=1 $(GO) test -v -count 1 -timeout 60m -run BenchDrift ./search

# A search into files against the bare screen, and what a second core gives.
bench-end:
	EVENSWING_BENCH_END=1 $(GO) test -v -count 1 -run BenchEnd ./cmd/evenswing

# Compares the screen with C (any compiler called cc) and the full motion with
# SciPy (Debian: apt-get install python3-scipy).
bench-peer:
	EVENSWING_BENCH_PEER=1 EVENSWING_PYTHON=$(PYTHON) $(GO) test -v -count 1 -run BenchPeer ./objective ./objective/motion

# Two hundred builders of the demo's best design with and without the page's table,
# and which designs a table serves.
builders: build
	test -e $(DEMO)/shortlist/01.yaml || $(MAKE) demo
	EVENSWING_BUILDERS=$(abspath $(DEMO))/shortlist/01.yaml $(GO) test -v -count 1 -timeout 60m -run BuildersAll ./output/shortlist

motion-study:
	EVENSWING_MOTION_STUDY=1 $(GO) test -v -count 1 -timeout 60m -run MotionStudy ./objective/motion

cover:
	$(GO) test -coverprofile cover.out ./...
	$(GO) tool cover -func cover.out | tail -1

# Writes the goldens of every package that has some; those of an edition of the
# arithmetic only once search.Edition is raised.
golden:
	$(GO) test $$(grep -rl 'flag.Bool("update"' --include='*_test.go' . | xargs -n 1 dirname | sort -u) -update

clean:
	rm -rf bin $(DEMO) bench.txt cover.out
