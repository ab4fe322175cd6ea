"""The open data of a record: tables, a data package of them, a workbook, and reading them back."""
