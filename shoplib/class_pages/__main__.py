"""`python -m shoplib.class_pages build` makes the class pages, `python -m shoplib.class_pages serve` hands them out."""

import argparse
import sys

from shoplib.class_pages.addresses import own_addresses
from shoplib.class_pages.serve import PORT, serve


def main(given=None):
    """Do what the command line says; answers with the status of the program."""
    reads = argparse.ArgumentParser(prog="python -m shoplib.class_pages", description=__doc__)
    kinds = reads.add_subparsers(dest="what", required=True)
    make = kinds.add_parser("build", help="build the folder")
    make.add_argument("site", nargs="?", default="class_pages", help="the folder to build")
    make.add_argument("--lessons", default="notebooks", help="the folder of lessons")
    make.add_argument("--pyodide", help="a folder with Pyodide's core; else its npm package is fetched")
    hand = kinds.add_parser("serve", help="serve the folder, read-only")
    hand.add_argument("site", nargs="?", default="class_pages", help="the folder that was built")
    hand.add_argument("--network", action="store_true", help="for everybody in this computer's network")
    hand.add_argument("--address", help="listen on this address of this computer")
    hand.add_argument("--port", type=_port, default=PORT)
    hand.add_argument("--no-browser", action="store_true", help="open no page for the projector")
    asked = reads.parse_args(given)
    try:
        if asked.what == "build":
            from shoplib.class_pages.build import build

            build(asked.site, asked.lessons, asked.pyodide)
        else:
            address = asked.address or (own_addresses()[0][0] if asked.network else "127.0.0.1")
            serve(asked.site, address, asked.port, not asked.no_browser)
    except (OSError, RuntimeError) as error:
        print(error, file=sys.stderr)
        return 1
    except ModuleNotFoundError as error:
        print(f"Class pages need {error.name}, which is not installed: README.md has the command.", file=sys.stderr)
        return 1
    return 0


def _port(text):
    """A port's number, 0 for any that is free."""
    if not (text.isascii() and text.isdigit() and int(text) < 2**16):
        raise argparse.ArgumentTypeError("a port is a whole number up to 65535")
    return int(text)


if __name__ == "__main__":
    sys.exit(main())
