"""`python -m axlebook` is the command `axlebook`."""

from axlebook.cli import main

if __name__ == "__main__":
    main()
