"""Tests of both packages; a package, so that no installed library's own tests take its name."""
