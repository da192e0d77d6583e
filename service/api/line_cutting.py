"""Cutting bytes into lines as they arrive, keeping no more than one line."""

from collections.abc import Iterator

END = b"\n"
BLANKS = b" \t\r"


class LineCutter:
    """Remembers the line that is not yet whole. A line that is too long is None, and is not kept."""

    def __init__(self, longest_bytes: int) -> None:
        self._longest_bytes = longest_bytes
        self._begun = bytearray()
        self._is_skipping = False

    def cut(self, block: bytes) -> Iterator[bytes | None]:
        """The lines that this block completes, one by one, without their ends."""
        start = 0
        while (end := block.find(END, start)) >= 0:
            yield self._ended(block[start:end])
            start = end + 1
        self._keep(block[start:])

    def last(self) -> Iterator[bytes | None]:
        """What came after the last end of a line, if anything did."""
        if self._begun or self._is_skipping:
            yield self._ended(b"")

    def _ended(self, piece: bytes) -> bytes | None:
        if not (self._begun or self._is_skipping):
            return piece if len(piece) <= self._longest_bytes else None
        self._keep(piece)
        line = None if self._is_skipping else bytes(self._begun)
        self._begun.clear()
        self._is_skipping = False
        return line

    def _keep(self, piece: bytes) -> None:
        if self._is_skipping or len(self._begun) + len(piece) > self._longest_bytes:
            self._begun.clear()
            self._is_skipping = True
        else:
            self._begun += piece
