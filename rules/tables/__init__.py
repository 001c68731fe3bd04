"""Sourced data: tool materials, sealers, releases, limits, cautions, prices, sources."""
