"""Lets ``python -m laydown`` do what ``laydown`` does."""

from laydown.cli.main import main

if __name__ == "__main__":
    main()
