"""Series from dated readings, split where what is measured, or how, changed. Values in, values out."""
