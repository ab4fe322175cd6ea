"""Draws the invented pictures of the sample line-up; run by draw_sample_pictures.py."""
