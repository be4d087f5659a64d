"""The course as a static website: text to read with live benches in it, made by ``make site``.

Nothing here knows an answer: questions come with the numbers of an invented reader, and without
what they come to.
"""
