"""Benchmarks are run as scripts, not by pytest."""

collect_ignore_glob = ["bench_*.py"]
