"""What becomes of a file? It is kept once under an id that can be sent again, and can be fetched by a path.

Sizes: Bot API manual, "Sending files" (50 MB up, 10 MB a photo) and "getFile" (20 MB down).
"""

from __future__ import annotations

import io
import mimetypes
from dataclasses import dataclass, field
from typing import Any

from scenarios.standin.refusal import Refusal, bad
from scenarios.standin.signatures import Upload

MAX_UPLOAD = 50 * 1024 * 1024
MAX_PHOTO = 10 * 1024 * 1024
MAX_DOWNLOAD = 20 * 1024 * 1024
_UNKNOWN = "application/octet-stream"
_NAMELESS = "application.octet-stream"  # what the client library calls bytes that have no name
_FIRST_BYTES = {
    b"\x89PNG": "image/png", b"\xff\xd8\xff": "image/jpeg", b"GIF8": "image/gif", b"OggS": "audio/ogg", b"ID3": "audio/mpeg",
    b"%PDF": "application/pdf", b"PK\x03\x04": "application/zip",
}  # fmt: skip
_SAID = {"photo": "Photo", "document": "Document", "voice": "VoiceNote", "audio": "Audio", "video": "Video"}


@dataclass(frozen=True)
class StoredFile:
    """A file as kept. kind: photo, document, voice, audio or video; width and height only of photos and videos."""

    id: str
    unique_id: str
    kind: str
    name: str
    mime: str
    content: bytes = field(repr=False)
    width: int = 0
    height: int = 0
    duration: int = 0

    @property
    def path(self) -> str:
        """Where it is fetched from, below /file/bot<token>/."""
        ending = (
            self.name.rpartition(".")[2] if "." in self.name else (mimetypes.guess_extension(self.mime) or ".bin").lstrip(".")
        )
        return f"{self.kind}s/file_{self.unique_id}.{ending}"

    def in_message(self) -> dict[str, Any]:
        """Its part of a message's JSON."""
        said: dict[str, Any] = {"file_id": self.id, "file_unique_id": self.unique_id, "file_size": len(self.content)}
        if self.kind == "photo":
            return {"photo": [{**said, "width": self.width, "height": self.height}]}
        if self.kind == "voice":
            return {"voice": {**said, "duration": self.duration, "mime_type": self.mime}}
        if self.kind == "video":
            said |= {"width": self.width, "height": self.height, "duration": self.duration}
        elif self.kind == "audio":
            said["duration"] = self.duration
        return {self.kind: {**said, "file_name": self.name, "mime_type": self.mime}}


class FileShelf:
    """All files of one stand-in."""

    def __init__(self) -> None:
        self._by_id: dict[str, StoredFile] = {}
        self._by_path: dict[str, StoredFile] = {}

    def keep(self, kind: str, upload: Upload, *, duration: int = 0) -> StoredFile:
        """Take a new file in.

        Raises:
            Refusal: too big, empty, or a photo that is no picture.
        """
        if len(upload.content) > MAX_UPLOAD:
            raise Refusal(413)
        if not upload.content:
            raise bad("file must be non-empty")
        width, height = _measured(upload.content) if kind == "photo" else (0, 0)
        number = len(self._by_id) + 1
        mime = _kind_of(upload)
        named = upload.filename and upload.filename != _NAMELESS
        name = upload.filename if named else kind + (mimetypes.guess_extension(mime) or "")
        stored = StoredFile(
            f"kept-{kind}-{number:06d}-of-the-stand-in", f"u{number:06d}", kind, name, mime,
            upload.content, width, height, duration,
        )  # fmt: skip
        self._by_id[stored.id] = stored
        self._by_path[stored.path] = stored
        return stored

    def again(self, kind: str, file_id: str) -> StoredFile:
        """A file that was sent before."""
        stored = self.find(file_id)
        if stored.kind != kind:
            raise bad(f"can't use file of type {_SAID[stored.kind]} as {_SAID[kind]}")
        return stored

    def find(self, file_id: str) -> StoredFile:
        try:
            return self._by_id[file_id]
        except KeyError:
            raise bad("wrong file identifier/HTTP URL specified") from None

    def to_download(self, file_id: str) -> StoredFile:
        try:
            stored = self._by_id[file_id]
        except KeyError:
            raise bad("invalid file_id") from None
        if len(stored.content) > MAX_DOWNLOAD:
            raise bad("file is too big")
        return stored

    def at_path(self, path: str) -> StoredFile | None:
        return self._by_path.get(path)


def _kind_of(upload: Upload) -> str:
    """The media type: as said, else by the name, else by the first bytes."""
    if upload.mime and upload.mime != _UNKNOWN:
        return upload.mime
    by_name = mimetypes.guess_type(upload.filename)[0] if upload.filename != _NAMELESS else None
    by_bytes = next((mime for start, mime in _FIRST_BYTES.items() if upload.content.startswith(start)), None)
    return by_name or by_bytes or _UNKNOWN


def _measured(content: bytes) -> tuple[int, int]:
    from PIL import Image, UnidentifiedImageError  # heavy, and needed for photos only

    if len(content) > MAX_PHOTO:
        raise bad(f"file of size {len(content)} bytes is too big for a photo; the maximum size is {MAX_PHOTO} bytes")
    try:
        with Image.open(io.BytesIO(content)) as picture:
            width, height = picture.size
    except (UnidentifiedImageError, OSError):
        raise bad("IMAGE_PROCESS_FAILED") from None
    if width + height > 10_000 or max(width, height) > 20 * min(width, height):  # manual, "sendPhoto"
        raise bad("PHOTO_INVALID_DIMENSIONS")
    return width, height
