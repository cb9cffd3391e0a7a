"""Builds the coach's own ear: data, training, export and evaluation of the command model.

These are build scripts. The coach never imports them, and a user never runs them.
"""
