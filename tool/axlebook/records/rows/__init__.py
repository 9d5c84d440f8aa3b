"""Readings as rows of a spreadsheet: what a file says to records, and what records say to a file. No files here.

`columns` names the columns, `cells` understands one cell, `table` a whole sheet, `lines` a row, `told` gives the rows
of records that are there, `compare` tells what of a file is on record already, `build` makes the new records.
"""
