"""The other ends that tests, proofs and benchmarks share: carriers, servers and databases."""
