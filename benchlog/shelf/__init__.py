"""The database, the photo files; the only room that knows SQLAlchemy."""
