"""`python -m axlebook` is the command `axlebook`."""

import os


def begin() -> None:
    """Run the command line; stopped while it is still being loaded, it says so as it does later."""
    try:
        from axlebook.cli import main

        main()
    except KeyboardInterrupt:
        os.write(2, b"axlebook: stopped.\n")
        os._exit(2)


if __name__ == "__main__":
    begin()
