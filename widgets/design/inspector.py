"""The inspector: the properties of whatever is selected, one page for each kind of part, under the path to it."""

from __future__ import annotations

from collections.abc import Hashable

from PySide6.QtCore import QCoreApplication, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication, QLabel, QStackedWidget, QVBoxLayout, QWidget

from widgets.design.forms.form import Form
from widgets.design.forms.message_forms import MessagesForm
from widgets.design.forms.panel_view import in_scroll_area
from widgets.design.forms.part_form import PartForm
from widgets.design.forms.screen_forms import FieldForm, PanelForm
from widgets.design.lines.forms import FollowerForm, LineForm
from widgets.design.properties.screen_form import ScreenForm
from widgets.design.signals.form import SignalForm
from widgets.document.document import Document
from widgets.document.drafts import Drafts
from widgets.document.unfinished import Unfinished
from widgets.kit.path_bar import PathBar
from widgets.kit.plain import plain_label

translate = QCoreApplication.translate


class Inspector(QWidget):
    """Shows the form of one part at a time. The forms of the panel and its messages stand in a view of their own."""

    signal_wanted = Signal(str)
    left = Signal()
    """Escape: whoever came here wants back."""

    def __init__(self, document: Document, drafts: Drafts, begun: Unfinished, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self.field_form = FieldForm(document, drafts)
        self.screen_form = ScreenForm(document, drafts, begun)
        self.panel_form = PanelForm(document, drafts)
        self.messages_form = MessagesForm(document, drafts)
        self.signal_form = SignalForm(document, drafts)
        self.line_form = LineForm(document, drafts)
        self.follower_form = FollowerForm(document, drafts)
        self.field_form.signal_wanted.connect(self.signal_wanted)
        self.path = PathBar()
        self._stack = QStackedWidget()
        self._of_screen: dict[Form, QWidget] = {}
        for form in (self.field_form, self.screen_form):
            self._of_screen[form] = in_scroll_area(form)
            self._stack.addWidget(self._of_screen[form])
        self._form_of_screen: Form = self.screen_form
        self._panel_in_front = False
        self._on_map = False
        self._pages: dict[str, tuple[PartForm, QWidget]] = {}
        for kind, other, nothing in (
            ("signal", self.signal_form, self.tr("No signal is selected. Choose one in the table, or add one.")),
            ("line", self.line_form, self.tr("No line is selected. Choose one in the table, or add one.")),
            ("follower", self.follower_form, self.tr("No device is selected. Choose one in the table, or add one.")),
        ):
            page = QWidget()
            column = QVBoxLayout(page)
            column.setContentsMargins(0, 0, 0, 0)
            column.setSpacing(0)
            none = plain_label(nothing, "faint", wrap=True)
            none.setAlignment(Qt.AlignmentFlag.AlignTop)
            none.setContentsMargins(10, 8, 10, 8)
            none.setObjectName("nothing")
            column.addWidget(none)
            column.addWidget(in_scroll_area(other), 1)
            self._pages[kind] = (other, page)
            self._stack.addWidget(page)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self.path)
        layout.addWidget(self._stack, 1)

    @property
    def forms(self) -> dict[str, Form]:
        """The forms by the kind of what they show."""
        of_panel: dict[str, Form] = {
            "field": self.field_form,
            "screen": self.screen_form,
            "panel": self.panel_form,
            "messages": self.messages_form,
        }
        return of_panel | {kind: form for kind, (form, _) in self._pages.items()}

    def rows_since(self, former: Inspector) -> dict[tuple[str, str], str]:
        """What the rows of a former inspector, perhaps of another language, are called here; each with its kind."""
        return {
            (kind, then.label): now.label
            for kind, form in self.forms.items()
            for then, now in zip(former.forms[kind].rows, form.rows, strict=True)
        }

    def show_screen(self, *, on_map: bool | None = None) -> None:
        """The screen under edit, or the field that is selected on it; `on_map` as it is seen there, None: as before."""
        self._on_map = self._on_map if on_map is None else on_map
        self._panel_in_front = False
        self._stack.setCurrentWidget(self._of_screen[self._form_of_screen])
        selection = self._document.selection
        if self._form_of_screen is self.field_form:
            self.field_form.show_selection(selection)
        else:
            self.screen_form.show_screen(selection.screen, on_map=self._on_map)

    def show_panel(self) -> None:
        """Bring the panel and its messages up to date, which stand in a view of their own."""
        self._panel_in_front = True
        self.panel_form.show_panel()
        self.messages_form.show_messages()

    def add_guest(self, widget: QWidget) -> QWidget:
        """Make a page of something that is no form, with all the room; gives what `show_guest` takes."""
        page = QWidget()
        column = QVBoxLayout(page)
        column.setContentsMargins(8, 8, 8, 8)
        column.addWidget(widget, 1)
        self._stack.addWidget(page)
        return page

    def show_guest(self, page: QWidget) -> None:
        """Show a page that is no form, until something else is shown."""
        self._panel_in_front = False
        self._stack.setCurrentWidget(page)

    def choose_form(self, form: FieldForm | ScreenForm) -> None:
        """Show the selected field from now on, or the screen that it is on."""
        self._form_of_screen = form
        if self._stack.currentWidget() in self._of_screen.values() and not self._panel_in_front:
            self.show_screen()

    @property
    def shows_field(self) -> bool:
        """Whether of a screen the selected field is shown, and not the screen itself."""
        return self._form_of_screen is self.field_form

    def show_part(self, kind: str, *subjects: Hashable) -> None:
        """The form of another part, or of several at once; without any: nothing is selected."""
        self._panel_in_front = False
        form, page = self._pages[kind]
        form.show_subject(subjects[0] if subjects else None, subjects[1:])
        form.setVisible(bool(subjects))
        nothing = page.findChild(QLabel, "nothing")
        if isinstance(nothing, QLabel):
            nothing.setVisible(not subjects)
        self._stack.setCurrentWidget(page)

    def current_form(self) -> Form | None:
        """The form that is shown, of two the one with the focus; None while a page that is no form is."""
        if self._panel_in_front:
            focused = QApplication.focusWidget()
            in_messages = focused is not None and self.messages_form.isAncestorOf(focused)
            return self.messages_form if in_messages else self.panel_form
        shown = self._stack.currentWidget()
        if shown in self._of_screen.values():
            return self._form_of_screen
        return next((form for form, page in self._pages.values() if page is shown), None)

    def form_of(self, kind: str) -> Form:
        """The form for a kind of part."""
        return self.forms[kind]

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Escape leads back, unless an editor has used it."""
        if event.key() == Qt.Key.Key_Escape and not event.modifiers():
            event.accept()
            self.left.emit()
            return
        super().keyPressEvent(event)
