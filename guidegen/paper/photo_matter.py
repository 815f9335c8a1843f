"""From a photo of a guide to what the typesetter is given.

Takes in a photo; gives out a piece with its picture, its caption and what is read aloud for it.
Refuses nothing: that the picture is there, was looked at when it was read.
"""

from guidegen.paper.matter import Piece, Written
from guidegen.photos.model import Photo


def photo_piece(photo: Photo) -> Piece:
    """Return *photo* with what is read aloud for it, and what is printed below it."""
    return {
        "kind": "photo",
        "photo": {
            # As numbers, since the typesetter takes no files but those of text.
            "data": list(photo.raw),
            "alt": photo.alt,
            "ratio": photo.width / photo.height,
        },
        "caption": Written([(photo.caption,)]) if photo.caption else None,
    }
