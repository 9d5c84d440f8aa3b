"""The physics, one topic a module.

Every number here is a plain float in SI (metres, pascals, kelvins, watts, kilograms, radians); the
unit stands in brackets in the docstring. Text, units and limits belong to the layers around this one:
a formula knows no railway, no limit and no day. Each function is a noun, the name of what it gives,
and says where it comes from.
"""
