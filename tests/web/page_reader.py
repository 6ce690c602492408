"""Reads a page as strictly as a validator: every tag closed, every control labelled, nothing from elsewhere."""

from __future__ import annotations

from html.parser import HTMLParser

VOID = {"meta", "link", "input", "br", "hr", "img"}
ALLOWED = {
    "html", "head", "meta", "title", "link", "body", "a", "header", "p", "nav", "ul", "ol", "li", "main", "footer", "small",
    "abbr", "h1", "h2", "h3", "section", "article", "figure", "figcaption", "mark", "sup", "dl", "dt", "dd", "div", "span",
    "strong", "em", "details", "summary", "pre", "form", "fieldset", "legend", "label", "input", "select", "option",
    "textarea", "button", "table", "thead", "tbody", "tr", "th", "td",
}  # fmt: skip
DRAWN = {"svg", "desc", "g", "path", "rect", "text", "tspan", "line", "circle", "ellipse"}
#: The one address that is no resource: the name space of the drawing.
NAME_SPACE = "http://www.w3.org/2000/svg"


class Page(HTMLParser):
    """One page; ``complaints`` is empty when it is sound. ``text`` is what is shown, ``tags`` every start tag."""

    def __init__(self, source: str) -> None:
        super().__init__(convert_charrefs=True)
        self.complaints: list[str] = []
        self.tags: list[tuple[str, dict[str, str]]] = []
        self.text = ""
        self.marks: list[str] = []
        self._open: list[str] = []
        self._empty: set[int] = set()  # depths at which a list is open that has no entry yet
        self.feed(source)
        self.close()
        if self._open:
            self.complaints.append(f"never closed: {self._open}")
        self._hold()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        self.tags.append((tag, given))
        if len(given) < len(attrs):
            self.complaints.append(f"an attribute of {tag} twice")
        if tag == "li":
            self._empty.discard(len(self._open))
        elif tag in {"ol", "ul"}:
            self._empty.add(len(self._open) + 1)
        if tag not in ALLOWED | DRAWN:
            self.complaints.append(f"unexpected {tag}")
        if tag == "mark":
            self.marks.append("")
        if tag not in VOID:
            self._open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, {name: value or "" for name, value in attrs}))

    def handle_endtag(self, tag: str) -> None:
        if not self._open or self._open.pop() != tag:
            self.complaints.append(f"closed without being open: {tag}")
        if tag in {"ol", "ul"} and len(self._open) + 1 in self._empty:
            self.complaints.append("a list of nothing")
        if tag in {"dt", "dd"}:
            self.text += " "

    def handle_data(self, data: str) -> None:
        self.text += data
        if "mark" in self._open:
            self.marks[-1] += data

    def all(self, tag: str) -> list[dict[str, str]]:
        """The attributes of every *tag*."""
        return [given for name, given in self.tags if name == tag]

    def named(self, identifier: str) -> dict[str, str]:
        """The attributes of the element with this id."""
        return next(given for _, given in self.tags if given.get("id") == identifier)

    def _hold(self) -> None:
        ids = [given["id"] for _, given in self.tags if "id" in given]
        if len(ids) != len(set(ids)):
            self.complaints.append("an id twice")
        labelled = [given.get("for", "") for given in self.all("label")]
        for tag, given in self.tags:
            if tag in {"input", "select", "textarea"} and labelled.count(given.get("id", "?")) != 1:
                self.complaints.append(f"no label, or several, for {given}")
            for name, value in given.items():
                if name.startswith("on") or name == "style":
                    self.complaints.append(f"{name} on {tag}")
                if "//" in value and value != NAME_SPACE and name != "value":
                    self.complaints.append(f"something from elsewhere on {tag}: {value}")
                if name in {"aria-labelledby", "aria-describedby"} and not set(value.split()) <= set(ids):
                    self.complaints.append(f"{name} names nothing: {value}")
                if name in {"href", "src", "action"} and not value.startswith(("/", "#")):
                    self.complaints.append(f"{name} leads elsewhere: {value}")
                if name == "href" and value.startswith("#") and value[1:] not in ids:
                    self.complaints.append(f"{value} is not there")
        if [given.get("lang") for given in self.all("html")] != ["en"] or len(self.all("h1")) != 1:
            self.complaints.append("no language, or not one first heading")
