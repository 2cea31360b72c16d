"""The page of a running vatwright in headless Chromium: how to open it, walk it and look at it."""
import contextlib
import re
import signal
import subprocess
import time

from selenium import webdriver
from selenium.webdriver.chrome.service import Service
from selenium.webdriver.common.by import By

CHROMIUM, DRIVER = "/usr/bin/chromium", "/usr/bin/chromedriver"
QUIET = ("--headless --no-sandbox --disable-gpu --disable-quic --no-first-run --disable-dev-shm-usage "
         "--disable-background-networking --disable-component-update --disable-sync").split()
WIDTHS = (390, 768, 1280)
WAIT = 10

OUTLINE = """
const out = [], all = q => [...document.querySelectorAll(q)];
if (document.documentElement.scrollWidth > innerWidth)
  out.push(`${document.documentElement.scrollWidth} px wide in a window of ${innerWidth} px`);
if (all('h1').length !== 1) out.push(`${all('h1').length} headings of the first rank`);
for (const mark of ['header', 'main', 'footer']) if (all(mark).length !== 1) out.push(`${all(mark).length} of <${mark}>`);
const ids = all('[id]').map(e => e.id);
for (const id of ids) if (ids.filter(other => other === id).length > 1) out.push(`id '${id}' twice`);
for (const e of all('[aria-describedby]'))
  for (const id of e.getAttribute('aria-describedby').split(' '))
    if (!document.getElementById(id)) out.push(`described by '${id}', which is not there`);
for (const e of all('input:not([type=hidden]), select, textarea'))
  if (!e.getAttribute('aria-label') && !(e.labels && e.labels.length && e.labels[0].textContent.trim()))
    out.push(`a field without words: ${e.outerHTML.slice(0, 80)}`);
for (const e of all('fieldset')) if (!e.querySelector('legend')) out.push('a group without words');
for (const e of all('a')) if (!e.textContent.trim() || !e.getAttribute('href')) out.push(`a link without words: ${e.outerHTML}`);
for (const th of all('th')) if (!['row', 'col'].includes(th.scope)) out.push(`'${th.textContent}' heads neither row nor column`);
for (const e of performance.getEntriesByType('resource')) if (!e.name.startsWith(location.origin) && !e.name.startsWith('data:')) out.push(`fetched ${e.name}`);
return out;
"""


def browser(script=True):
    options = webdriver.ChromeOptions()
    options.binary_location = CHROMIUM
    options.set_capability("goog:loggingPrefs", {"browser": "ALL"})
    for word in QUIET:
        options.add_argument(word)
    if not script:
        options.add_experimental_option("prefs", {"profile.managed_default_content_settings.javascript": 2})
    return webdriver.Chrome(service=Service(DRIVER), options=options)


@contextlib.contextmanager
def served(program):
    """The address of a page that is served while it is used."""
    run = subprocess.Popen([program, "page", "--port", "0"], stdout=subprocess.PIPE, text=True)
    try:
        yield re.search(r"http://\S+", run.stdout.readline()).group()
    finally:
        run.send_signal(signal.SIGINT)
        run.wait(5)


class Walk:
    """One window: what it complains of is kept. `axe`: the text of axe-core, which looks at the page too."""

    def __init__(self, address, axe="", script=True):
        self.driver, self.axe, self.complaints = browser(script), axe, []
        self.root = address.split("/?")[0]
        self.driver.get(address)

    def complain(self, words):
        self.complaints.append(words)

    def find(self, selector):
        return self.driver.find_element(By.CSS_SELECTOR, selector)

    def all(self, selector):
        return self.driver.find_elements(By.CSS_SELECTOR, selector)

    def until(self, words, holds):
        end = time.monotonic() + WAIT
        while time.monotonic() < end:
            try:
                if holds():
                    return True
            except Exception:  # what is looked for is being exchanged
                pass
            time.sleep(0.05)
        self.complain(f"never came: {words}")
        return False

    def go(self, target):
        self.driver.get(self.root + target)

    def wide(self, width):
        self.driver.execute_cdp_cmd("Emulation.setDeviceMetricsOverride",
                                    {"width": width, "height": 1000, "deviceScaleFactor": 1, "mobile": False})
        time.sleep(0.1)

    def dark(self, on):
        media = [{"name": "prefers-color-scheme", "value": "dark"}] if on else []
        self.driver.execute_cdp_cmd("Emulation.setEmulatedMedia", {"features": media})
        time.sleep(0.1)

    def look(self, name):
        """At each width, and with the eyes of those who do not see it; in the light and in the dark."""
        for width in WIDTHS:
            self.wide(width)
            for line in self.driver.execute_script(OUTLINE):
                self.complain(f"{name}, {width} px: {line}")
        for dark in (False, True):
            self.dark(dark)
            for line in self.hindrances():
                self.complain(f"{name}, {'dark' if dark else 'light'}: {line}")
        self.dark(False)

    def hindrances(self):
        """What axe-core finds serious or worse."""
        if not self.axe:
            return []
        self.driver.execute_script(self.axe)
        found = self.driver.execute_async_script("""
          const done = arguments[arguments.length - 1];
          axe.run(document, {resultTypes: ['violations']}).then(said => done(said.violations.map(
            v => [v.impact, `${v.id}: ${v.help}: ${v.nodes.slice(0, 3).map(n => n.target.join(' ')).join('; ')}`])),
            error => done([['serious', String(error)]]));""")
        return [words for impact, words in found if impact in ("serious", "critical")]

    def sheet_words(self):
        frames = self.all("iframe.sheet:not([style*='hidden'])")
        return self.driver.execute_script("return arguments[0].contentDocument.body.innerText", frames[-1]) if frames else ""

    def type_into(self, box, words):
        if not box.is_displayed():
            self.driver.execute_script("arguments[0].closest('details').open = true", box)
        box.clear()
        box.send_keys(words)
