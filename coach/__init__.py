"""coach guides a person through a crochet pattern, hands on the hook."""

__version__ = "0.1.0"
