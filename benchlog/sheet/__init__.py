"""What goes out to viewers, from plain records only; the only room that knows ReportLab."""
