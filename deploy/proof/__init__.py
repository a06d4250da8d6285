"""The proofs that nothing is lost: seasons under kills, rushes and generated texts."""
