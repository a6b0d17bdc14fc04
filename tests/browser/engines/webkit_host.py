"""The smallest WebKit browser there is, with a profile that lasts. Run by the system's Python.

WebKitWebDriver starts it in place of its own browser, which keeps nothing. Whatever a page gives to
`webkit.messageHandlers.told` goes to a file at once, so that it is known after a hard kill, too.

Usage: /usr/bin/python3 webkit_host.py PROFILE_FOLDER TOLD_FILE
"""

import os
import sys

import gi

gi.require_version("Gtk", "3.0")
gi.require_version("WebKit2", "4.1")
from gi.repository import Gtk, WebKit2  # noqa: E402


def main(profile: str, told: str) -> None:
    """Wait for the driver and do as it says."""
    file = os.open(told, os.O_WRONLY | os.O_APPEND | os.O_CREAT)
    folders = WebKit2.WebsiteDataManager(
        base_data_directory=f"{profile}/data", base_cache_directory=f"{profile}/cache"
    )
    context = WebKit2.WebContext.new_with_website_data_manager(folders)
    folders.get_cookie_manager().set_persistent_storage(
        f"{profile}/cookies.sqlite", WebKit2.CookiePersistentStorage.SQLITE
    )
    context.set_automation_allowed(True)
    view = WebKit2.WebView(
        web_context=context,
        is_controlled_by_automation=True,
        user_content_manager=WebKit2.UserContentManager(),
    )
    pages = view.get_user_content_manager()
    pages.connect(
        "script-message-received::told",
        lambda _, said: os.write(file, f"told {said.get_js_value().to_string()}\n".encode()),
    )
    pages.register_script_message_handler("told")

    def automate(_, session):
        about = WebKit2.ApplicationInfo()
        about.set_name("cue-ladder-tests")
        session.set_application_info(about)
        session.connect("create-web-view", lambda _: view)

    context.connect("automation-started", automate)
    window = Gtk.Window(default_width=360, default_height=740)
    window.add(view)
    window.connect("destroy", Gtk.main_quit)
    window.show_all()
    Gtk.main()


if __name__ == "__main__":
    main(*sys.argv[1:])
