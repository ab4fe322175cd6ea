"""The Qt window: draws and forwards, decides nothing."""
