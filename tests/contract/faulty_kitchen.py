"""A server that does everything wrong, for the fuzzer to find out: python -m tests.contract.faulty_kitchen PORT."""

import json
import sys
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer

PROBLEM = {"type": "object", "required": ["type"]}
BODY = {
    "type": "object", "additionalProperties": False, "required": ["salt"],
    "properties": {"salt": {"type": "number", "minimum": 1, "maximum": 1000}},
}  # fmt: skip
DOSE = {
    "operationId": "curing_dose",
    "requestBody": {"required": True, "content": {"application/json": {"schema": BODY}}},
    "responses": {
        "200": {"description": "A dose.", "content": {"application/json": {"schema": {"type": "object"}}}},
        "422": {"description": "No.", "content": {"application/problem+json": {"schema": PROBLEM}}},
    },
}
LINES = {
    "operationId": "curing_dose_lines",
    "requestBody": {"required": True, "content": {"application/x-ndjson": {"schema": {"type": "string"}}}},
    "responses": {
        "200": {"description": "Doses.", "content": {"application/x-ndjson": {"schema": {"type": "string"}}}},
    },
}
DOCUMENT = {
    "openapi": "3.1.0",
    "info": {"title": "A faulty kitchen", "version": "1"},
    "paths": {"/v1/curing/dose": {"post": DOSE}, "/v1/curing/dose/lines": {"post": LINES}},
}


class FaultyKitchen(BaseHTTPRequestHandler):
    """Publishes a document, refuses everything without a reason, now and then in plain JSON, and forgets lines."""

    refused = 0

    def do_GET(self) -> None:
        """The document."""
        self._send(200, "application/json", DOCUMENT)

    def do_POST(self) -> None:
        """A refusal."""
        self.rfile.read(int(self.headers.get("Content-Length", 0)))
        if self.path.endswith("/lines"):
            self._send(200, "application/x-ndjson", {"line": 1, "answer": {}})
            return
        FaultyKitchen.refused += 1
        media_type = "application/json" if FaultyKitchen.refused % 2 else "application/problem+json"
        self._send(422, media_type, {"type": "/problems/invalid-request", "status": 422, "code": "invalid_request"})

    def _send(self, status: int, media_type: str, content: object) -> None:
        body = json.dumps(content).encode()
        self.send_response(status)
        self.send_header("Content-Type", media_type)
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        self.wfile.write(body)


if __name__ == "__main__":
    ThreadingHTTPServer(("127.0.0.1", int(sys.argv[1])), FaultyKitchen).serve_forever()
