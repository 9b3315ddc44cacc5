"""The inspector: the properties of whatever is selected, one page for each kind of part."""

from __future__ import annotations

from collections.abc import Hashable

from PySide6.QtCore import QCoreApplication, Qt, Signal
from PySide6.QtWidgets import QFrame, QLabel, QScrollArea, QStackedWidget, QTabWidget, QVBoxLayout, QWidget

from widgets.design.forms.form import Form
from widgets.design.forms.message_forms import MessagesForm
from widgets.design.forms.screen_forms import FieldForm, PanelForm, ScreenForm
from widgets.design.lines.forms import FollowerForm, LineForm
from widgets.design.signals.form import SignalForm
from widgets.document.document import Document
from widgets.document.drafts import Drafts
from widgets.kit.elided import shorten_tabs
from widgets.kit.plain import plain_label

translate = QCoreApplication.translate


class Inspector(QWidget):
    """Shows the form of one part at a time; for the screen under edit those of field, screen and panel as tabs.

    What the panel itself says is the last of these tabs.
    """

    signal_wanted = Signal(str)

    def __init__(self, document: Document, drafts: Drafts, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self.field_form = FieldForm(document, drafts)
        self.screen_form = ScreenForm(document, drafts)
        self.panel_form = PanelForm(document, drafts)
        self.messages_form = MessagesForm(document, drafts)
        self.signal_form = SignalForm(document, drafts)
        self.line_form = LineForm(document, drafts)
        self.follower_form = FollowerForm(document, drafts)
        self.field_form.signal_wanted.connect(self.signal_wanted)
        self.tabs = QTabWidget()
        self.tabs.setDocumentMode(True)
        self.tabs.tabBar().setAccessibleName(self.tr("Properties of"))
        self._in_tabs: list[Form] = []
        for form, title in (
            (self.field_form, self.tr("Field")),
            (self.screen_form, self.tr("Screen")),
            (self.panel_form, self.tr("Panel")),
            (self.messages_form, self.tr("Messages")),
        ):
            page = beneath(self.messages_form.preview, form) if form is self.messages_form else in_scroll_area(form)
            self.tabs.setTabToolTip(self.tabs.addTab(page, title), title)
            self._in_tabs.append(form)
        shorten_tabs(self.tabs.tabBar())
        self._stack = QStackedWidget()
        self._stack.addWidget(self.tabs)
        self._pages: dict[str, tuple[Form, QWidget, QLabel]] = {}
        for kind, other, nothing in (
            ("signal", self.signal_form, self.tr("No signal is selected. Choose one in the table, or add one.")),
            ("line", self.line_form, self.tr("No line is selected. Choose one in the table, or add one.")),
            ("follower", self.follower_form, self.tr("No device is selected. Choose one in the table, or add one.")),
        ):
            page = QWidget()
            column = QVBoxLayout(page)
            column.setContentsMargins(0, 0, 0, 0)
            column.setSpacing(0)
            heading = plain_label("", "heading", wrap=True)
            heading.setContentsMargins(10, 7, 10, 3)
            none = plain_label(nothing, "faint", wrap=True)
            none.setAlignment(Qt.AlignmentFlag.AlignTop)
            none.setContentsMargins(10, 8, 10, 8)
            none.setObjectName("nothing")
            column.addWidget(heading)
            column.addWidget(none)
            column.addWidget(in_scroll_area(other), 1)
            self._pages[kind] = (other, page, heading)
            self._stack.addWidget(page)
        # Only the form in front is kept up to date; the others are when they come to the front.
        self.tabs.currentChanged.connect(lambda _index: self.refresh_screen())
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self._stack)

    @property
    def forms(self) -> dict[str, Form]:
        """The forms by the kind of what they show."""
        of_screen = dict(zip(("field", "screen", "panel", "messages"), self._in_tabs, strict=True))
        return of_screen | {kind: form for kind, (form, _, _) in self._pages.items()}

    def rows_since(self, former: Inspector) -> dict[tuple[str, str], str]:
        """What the rows of a former inspector, perhaps of another language, are called here; each with its kind."""
        return {
            (kind, then.label): now.label
            for kind, form in self.forms.items()
            for then, now in zip(former.forms[kind].rows, form.rows, strict=True)
        }

    def show_screen(self) -> None:
        """The tabs for the selection of the document."""
        self._stack.setCurrentWidget(self.tabs)
        self.refresh_screen()

    def add_guest(self, widget: QWidget, title: str) -> QWidget:
        """Make a page of something that is no form, with all the room; gives what `show_guest` takes."""
        page = QWidget()
        column = QVBoxLayout(page)
        column.setContentsMargins(8, 0, 8, 8)
        heading = plain_label(title, "heading")
        heading.setContentsMargins(2, 7, 2, 3)
        column.addWidget(heading)
        column.addWidget(widget, 1)
        self._stack.addWidget(page)
        return page

    def show_guest(self, page: QWidget) -> None:
        """Show a page that is no form, until something else is shown."""
        self._stack.setCurrentWidget(page)

    def refresh_screen(self) -> None:
        """Bring the tabs up to date."""
        selection = self._document.selection
        form = self.current_form()
        if form is self.field_form:
            self.field_form.show_selection(selection)
        elif form is self.screen_form:
            self.screen_form.show_screen(selection.screen)
        elif form is self.messages_form:
            self.messages_form.show_messages()
        else:
            self.panel_form.show_panel()

    def show_tab(self, form: Form) -> None:
        """Bring this form of the tabs to the front."""
        self.tabs.setCurrentIndex(self._in_tabs.index(form))

    def show_part(self, kind: str, subject: Hashable, title: str) -> None:
        """The form of another part; `subject` None: nothing is selected."""
        form, page, heading = self._pages[kind]
        form.show_subject(subject)
        heading.setText(title)
        heading.setVisible(subject is not None)
        form.setVisible(subject is not None)
        nothing = page.findChild(QLabel, "nothing")
        if isinstance(nothing, QLabel):
            nothing.setVisible(subject is None)
        self._stack.setCurrentWidget(page)

    def current_form(self) -> Form | None:
        """The form that is shown; None while a page that is no form is."""
        if self._stack.currentWidget() is self.tabs:
            return self._in_tabs[self.tabs.currentIndex()]
        return next((form for form, page, _ in self._pages.values() if page is self._stack.currentWidget()), None)

    def form_of(self, kind: str) -> Form:
        """The form for a kind of part."""
        return self.forms[kind]


def in_scroll_area(form: QWidget) -> QScrollArea:
    """A form that scrolls up and down when it is longer than its place."""
    area = QScrollArea()
    area.setWidgetResizable(True)
    area.setFrameShape(QFrame.Shape.NoFrame)
    area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    area.setWidget(form)
    return area


def beneath(top: QWidget, form: QWidget) -> QWidget:
    """A form that scrolls beneath something that stays."""
    page = QWidget()
    column = QVBoxLayout(page)
    column.setContentsMargins(0, 0, 0, 0)
    column.setSpacing(0)
    column.addWidget(top)
    column.addWidget(in_scroll_area(form), 1)
    return page
