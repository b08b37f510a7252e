# SPDX-License-Identifier: MIT
# The two commands of the README, and the slower checks.

EXAMPLE = examples/kestrel/kestrel-4x5.conversion.toml

# Everything for one conversion, from a bare Debian 12 to a folder of parts and papers.
demo:
	@tools/setup.sh build >&2
	@cmake --preset release -DBUILD_TESTING=OFF >/dev/null
	@cmake --build --preset release -- --quiet
	build/release/backfit make $(EXAMPLE) -o demo

check:
	@tools/setup.sh check >&2
	@cmake --preset release -DBUILD_TESTING=ON >/dev/null
	@cmake --build --preset release -- --quiet
	@cmake --build --preset release --target all_verify_interface_header_sets -- --quiet
	ctest --preset release --parallel 2 --progress

sanitize:
	@tools/setup.sh check >&2
	@cmake --preset sanitize >/dev/null
	@cmake --build --preset sanitize -- --quiet
	ctest --preset sanitize --parallel 2 --progress

tidy:
	@tools/setup.sh tidy >&2
	@cmake --preset tidy >/dev/null
	cmake --build --preset tidy -- -k 0

bench: check
	build/release/bench/monte_carlo_bench
	build/release/bench/back_plate_bench
	build/release/bench/parts_bench --benchmark_repetitions=15 \
	  --benchmark_enable_random_interleaving=true --benchmark_report_aggregates_only=true
	build/release/bench/conversion_bench
	build/release/bench/evidence_bench
	build/release/bench/lens_bench
	build/release/bench/match_bench
	build/release/bench/lighttrap_bench
	tests/web/run.py build/release/backfit build/release/web-tests bench/workbench_turns.mjs

.PHONY: demo check sanitize tidy bench
