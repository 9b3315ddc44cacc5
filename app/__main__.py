"""`python -m app`: the command line, where its own command is not on the path."""

from app.cli.parser import main

raise SystemExit(main())
