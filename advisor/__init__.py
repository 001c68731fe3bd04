"""Process plans for composite tooling, with the reason and the source for each step."""

from pathlib import Path

__version__ = "0.1.0"

# In a wheel rules/ and templates/ are inside this folder; in a checkout they are beside
# it, so `import advisor.rules` must also look one folder up.
if not (Path(__file__).parent / "rules").is_dir():
    __path__.append(str(Path(__file__).parent.parent))
