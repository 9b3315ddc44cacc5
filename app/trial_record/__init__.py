"""Records of trials: kept while a trial runs, signed, verified, compared, and handed on as JUnit XML."""
