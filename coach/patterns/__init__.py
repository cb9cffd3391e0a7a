"""The built-in patterns, of our own design: texts as a designer writes them."""
