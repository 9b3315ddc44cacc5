"""The application and its main window: menus, help, files. Everything comes together here."""
