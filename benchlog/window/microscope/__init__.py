"""Pictures of the media under the microscope, in the window."""
