"""The engines a phone may run, by the names a command takes. Not a test module."""

from tests.browser.engines.chromium import Chromium
from tests.browser.engines.engine import Engine
from tests.browser.engines.firefox import Firefox
from tests.browser.engines.webkit import Webkit

ENGINES: dict[str, type[Engine]] = {"chromium": Chromium, "webkit": Webkit, "firefox": Firefox}
