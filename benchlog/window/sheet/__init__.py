"""The Sheet place: the viewers' sheet, previewed and written."""
