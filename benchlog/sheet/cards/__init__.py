"""On-screen cards for the video: each described once in plain shapes, drawn as PNG and as SVG."""
