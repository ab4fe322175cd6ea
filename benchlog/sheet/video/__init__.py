"""Files for the video: chapters and subtitles as WebVTT, markers for the editor."""
