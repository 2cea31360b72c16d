// Without it the page works form by form. With it the sheet follows what is typed, tables grow and take what a
// spreadsheet copied, and the browser remembers where one was.
'use strict';
(() => {
  // Where the page stands: behind a server, or in one file (host/page/one-file), which says so before.
  const place = globalThis.vatwrightPlace || {
    here: () => location.pathname + location.search,
    ask: async (address, signal) => (await fetch(address, {signal})).text(),
    replace: address => history.replaceState(null, '', address),
    push: address => history.pushState(null, '', address),
    submit: form => form.submit(),
    fill: async () => {},  // a frame loads its sheet by itself
    addressOf: frame => frame.getAttribute('src'),
  };
  const kept = 'vatwright';
  const soon = 30, patience = 400;  // ms: after the last key; until it says that it computes
  const store = {
    get: () => { try { return localStorage.getItem(kept); } catch { return null; } },
    set: place => { try { localStorage.setItem(kept, place); } catch { /* it is full, or not allowed */ } },
    clear: () => { try { localStorage.removeItem(kept); } catch { /* the same */ } },
  };
  const {here} = place;

  // --- what is remembered ---------------------------------------------------------------------
  const remember = () => {
    const goOn = document.getElementById('go-on');
    if (goOn && store.get()) {
      goOn.hidden = false;
      goOn.querySelector('a').href = store.get();
      goOn.querySelector('button').onclick = () => { store.clear(); goOn.hidden = true; };
    }
    if (/^[/](work|ask)($|[?])/.test(here())) store.set(here());
  };

  // --- the sheet as tall as it is -------------------------------------------------------------
  const fit = frame => {
    const page = frame.contentDocument;
    if (page && page.documentElement) frame.style.height = `${page.documentElement.scrollHeight + 4}px`;
  };
  const watch = frame => {
    if (frame.contentDocument && frame.contentDocument.readyState === 'complete') fit(frame);
    frame.addEventListener('load', () => fit(frame));
  };

  // --- live -----------------------------------------------------------------------------------
  // A sheet is swapped for the next one when that is there, so that nothing flickers.
  const swapSheet = (old, next) => {
    const frame = next.querySelector('iframe.sheet'), shown = old.querySelector('iframe.sheet');
    if (!frame || !shown) {
      old.replaceChildren(...next.childNodes);
      old.querySelectorAll('iframe.sheet').forEach(watch);
      return;
    }
    const around = part => [...part.children].filter(e => !e.matches('iframe'));
    const before = around(old), after = around(next);
    if (before.length !== after.length) {
      old.replaceChildren(...document.importNode(next, true).childNodes);
      old.querySelectorAll('iframe.sheet').forEach(watch);
      return;
    }
    before.forEach((e, i) => { if (e.outerHTML !== after[i].outerHTML) e.replaceWith(document.importNode(after[i], true)); });
    old.querySelectorAll('iframe.coming').forEach(late => late.remove());
    if (place.addressOf(frame) === place.addressOf(shown)) return;
    const fresh = document.importNode(frame, true);
    fresh.style.cssText = `position:absolute;visibility:hidden;width:${shown.clientWidth}px`;
    fresh.classList.add('coming');
    fresh.addEventListener('load', () => {
      if (!fresh.isConnected || fresh.classList.contains('there')) return;
      fit(fresh);
      const height = fresh.style.height;
      fresh.style.cssText = `height:${height}`;
      fresh.className = 'sheet there';
      old.querySelectorAll('iframe.sheet:not(.coming)').forEach(frame => { if (frame !== fresh) frame.remove(); });
    });
    shown.after(fresh);
  };
  const exchange = async (text, signal) => {
    const page = new DOMParser().parseFromString(text, 'text/html');
    await Promise.all([...page.querySelectorAll('iframe.sheet')].map(frame => place.fill(frame, signal)));
    signal.throwIfAborted();
    for (const part of document.querySelectorAll('[data-part]')) {
      const next = page.getElementById(part.id);
      if (!next || next.innerHTML === part.innerHTML) continue;
      part.className = next.className;
      if (part.id === 'result') swapSheet(part, next);
      else part.replaceChildren(...document.importNode(next, true).childNodes);
      const input = document.querySelector(`[aria-describedby~="${part.id}"]:is(input)`);
      if (input && next.classList.contains('slip')) input.setAttribute('aria-invalid', 'true');
      else if (input) input.removeAttribute('aria-invalid');
    }
  };
  let asking = null;
  const ask = async form => {
    if (asking) asking.abort();
    const mine = asking = new AbortController();
    const data = new URLSearchParams(new FormData(form));
    const address = `${form.getAttribute('action')}?${data}`;
    const result = document.getElementById('result') || document.getElementById('found');
    const slow = setTimeout(() => {
      result.classList.add('computing');
      const stop = document.createElement('button');
      stop.type = 'button';
      stop.textContent = 'Stop';
      stop.className = 'quiet stop';
      stop.onclick = () => mine.abort();
      result.prepend(stop);
    }, patience);
    try {
      await exchange(await place.ask(address, mine.signal), mine.signal);
      place.replace(address);
      if (form.dataset.live === 'figures') store.set(here());
    } catch (error) {
      if (error.name !== 'AbortError') place.submit(form);
    } finally {
      clearTimeout(slow);
      result.classList.remove('computing');
      result.querySelectorAll('.stop').forEach(button => button.remove());
    }
  };
  const follow = () => {
    // An address need not say what is empty.
    for (const form of document.querySelectorAll('form[method=get]'))
      form.addEventListener('formdata', event => {
        for (const [name, value] of [...event.formData]) if (value === '') event.formData.delete(name);
      });
    for (const form of document.querySelectorAll('form[data-live]')) {
      let timer = 0;
      form.addEventListener('input', () => { clearTimeout(timer); timer = setTimeout(() => ask(form), soon); });
      // One step back goes to what stood there before this field was changed.
      form.addEventListener('change', () => { if (here().length > 1) place.push(here()); });
    }
  };

  // --- tables ---------------------------------------------------------------------------------
  const rowsOf = table => [...table.tBodies[0].rows];
  const grow = table => {
    const rows = rowsOf(table), last = rows[rows.length - 1], next = last.cloneNode(true);
    const mark = `${table.dataset.grows}|`;
    for (const cell of next.querySelectorAll('input, select')) {
      cell.value = '';
      const column = cell.name.slice(mark.length).split('|').slice(1).join('|');
      cell.name = `${mark}${rows.length}|${column}`;
      cell.setAttribute('aria-label', cell.getAttribute('aria-label').replace(/\d+$/, rows.length + 1));
    }
    last.after(next);
    return next;
  };
  const cellsOf = row => [...row.querySelectorAll('input:not([type=checkbox]), select')];
  document.addEventListener('keydown', event => {
    const cell = event.target, table = cell.closest && cell.closest('table.typed-table');
    if (!table || event.key !== 'Enter') return;
    event.preventDefault();
    const row = cell.closest('tr'), column = cellsOf(row).indexOf(cell);
    const next = row.nextElementSibling || (table.dataset.grows ? grow(table) : null);
    if (next) cellsOf(next)[Math.max(0, column)].focus();
  });
  document.addEventListener('paste', event => {
    const cell = event.target, table = cell.closest && cell.closest('table.typed-table');
    const text = event.clipboardData.getData('text');
    if (!table || !/[\t\n]/.test(text.trim())) return;
    event.preventDefault();
    let row = cell.closest('tr');
    const from = cellsOf(row).indexOf(cell);
    text.replace(/\r?\n$/, '').split(/\r?\n/).forEach((line, i) => {
      if (i > 0) row = row.nextElementSibling || (table.dataset.grows ? grow(table) : null);
      if (!row) return;
      const cells = cellsOf(row);
      line.split('\t').forEach((value, j) => { if (cells[from + j]) cells[from + j].value = value.trim(); });
    });
    cell.dispatchEvent(new Event('input', {bubbles: true}));
  });

  // --- a file dropped on the page -------------------------------------------------------------
  const dropForm = () => document.querySelector('form[action="/open"]');
  const over = on => event => {
    if (!dropForm()) return;
    event.preventDefault();
    document.body.classList.toggle('dropping', on);
  };
  addEventListener('dragover', over(true));
  addEventListener('dragleave', over(false));
  addEventListener('drop', event => {
    over(false)(event);
    const form = dropForm(), file = event.dataTransfer.files[0];
    if (!form || !file) return;
    const there = document.querySelector(`form[action="${/\.json$/i.test(file.name) ? '/verify' : '/open'}"]`) || form;
    const list = new DataTransfer();
    list.items.add(file);
    there.querySelector('input[type=file]').files = list.files;
    place.submit(there);
  });

  // --- each page ------------------------------------------------------------------------------
  const begin = () => {
    remember();
    document.querySelectorAll('iframe.sheet').forEach(watch);
    follow();
  };
  if (globalThis.vatwrightPlace) {
    place.begin = begin;
  } else {
    addEventListener('popstate', () => location.reload());
    begin();
  }
})();
