"""The Qt window: draws and forwards, decides nothing.

Whatever must be decided is decided in tasks. What is imported before the first paint stays in
`app`, `main_window`, `places_bar`, `theme` and `faults`; everything else waits until the shell
is on screen.
"""
