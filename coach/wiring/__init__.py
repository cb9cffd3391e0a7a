"""The only place where ports meet adapters. It decides nothing and knows everybody by name."""
