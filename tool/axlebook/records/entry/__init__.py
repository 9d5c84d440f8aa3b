"""Guided entry: a state, an answer, the next state and what to say. No files, no clock, no terminal.

`question` is what is asked, `header` what is asked before, `state` what was answered so far (a fold over events, which
is what a draft keeps), `record` the record that it makes, `machine` the conversation.
"""
