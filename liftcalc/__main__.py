"""``python -m liftcalc`` is the command line."""

from liftcalc.cli.main import main

main()
