#!/usr/bin/env python3
"""Set Yardbell up and start it: ``python3 deploy/start.py --help`` tells how.

Written so that any Python can read it and say what is missing; all else is in the files beside it.
"""

import os
import sys

NEEDED = (3, 11)

if sys.version_info < NEEDED:
    sys.stderr.write("Yardbell needs Python 3.11 or newer; this is %d.%d\n" % sys.version_info[:2])
    sys.exit(2)

sys.path.insert(0, os.path.dirname(os.path.dirname(os.path.abspath(__file__))))

from deploy.environment import main

if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
