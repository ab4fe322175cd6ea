"""The database, the photo files; the only room that knows SQLAlchemy."""

from benchlog.shelf.checking import check_shelf
from benchlog.shelf.opening import open_shelf
from benchlog.shelf.sql_shelf import SqlShelf

__all__ = ["SqlShelf", "check_shelf", "open_shelf"]
