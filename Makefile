# dropleg: what one can do here. 'make' alone lists it.
#
# Go alone builds and runs the program; Node is used only to test the page and to
# build its bundle anew.

export CGO_ENABLED ?= 0
# The checks share files and two cores: one after the other.
.NOTPARALLEL:
TOOL = go tool -modfile=tools/go.mod

.PHONY: help
help: ## list the targets
	@sed -n 's/^\([a-z-]*\):.*## /  \1\t/p' Makefile | expand -t 16

.PHONY: build run
build: ## bin/dropleg
	go build -trimpath -o bin/dropleg ./cmd/dropleg
run: build ## the boat shop in the browser
	bin/dropleg open --example boat-shop

.PHONY: test test-go test-web
test: needs test-web test-go ## install what is missing, then check everything
test-go: format-check vet staticcheck generated ## all that needs no Node
	# Browser walks and a thousand kills share two cores: longer than the usual ten minutes on a busy machine.
	go test -timeout 20m ./...
test-web: types lint bundle-check web-unit ## the page

.PHONY: needs
needs: ## install what the tests need (Debian; root or sudo)
	.ci/needs.sh

.PHONY: format format-check vet staticcheck generated
format: ## format Go and TypeScript
	$(TOOL) gofumpt -w .
	[ ! -d web/node_modules ] || (cd web && npm run --silent format)
format-check:
	@unformatted=$$($(TOOL) gofumpt -l .) && if [ -n "$$unformatted" ]; then \
		echo "not formatted, run make format:"; echo "$$unformatted"; exit 1; fi
vet:
	go vet ./...
	go -C dev/bundle vet ./...
staticcheck:
	$(TOOL) staticcheck ./...
	go -C dev/bundle tool -modfile=../../tools/go.mod staticcheck ./...
generated:
	.ci/generated.sh

.PHONY: types lint bundle bundle-check web-unit
types:
	cd web && npm run --silent types
lint:
	cd web && npm run --silent lint
bundle: ## web/dist from web/src
	go -C dev/bundle run .
# The test cache does not see files outside the bundler's own module: -count=1.
bundle-check:
	go -C dev/bundle run . -check
	go -C dev/bundle test -count=1 ./...
web-unit:
	@out=$$(mktemp -d) && trap 'rm -rf "$$out"' EXIT && go -C dev/bundle run . -tests "$$out" && \
	files=$$(find "$$out" -name '*.test.mjs' | sort) && \
	if [ -n "$$files" ]; then node --enable-source-maps --test $$files; fi

.PHONY: screenshots
screenshots: build ## every screen, two sizes, two lights, into screenshots/
	node web/test/screenshots.mjs bin/dropleg screenshots

.PHONY: generate bench race
generate: ## write the generated files, then the bundle that reads them
	go generate ./...
	[ ! -d web/node_modules ] || go -C dev/bundle run .
bench: ## benchmarks
	go test -run '^$$' -bench . -benchmem ./...
race: ## tests under the race detector (needs a C compiler)
	CGO_ENABLED=1 go test -race ./...
