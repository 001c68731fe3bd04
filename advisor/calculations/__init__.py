"""Calculations: numbers in, numbers out, in SI units unless a name says otherwise."""
