"""``python -m wareboard`` is the same program as ``wareboard``."""

from wareboard.cli.main import run

if __name__ == "__main__":
    run()
