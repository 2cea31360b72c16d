// The place of the page in one file: links and forms go to a worker that computes, the address stands behind a '#', lots
// are kept in the browser. host/page/page.js does the rest as it does behind a server.
'use strict';
globalThis.vatwrightPlace = (() => {
  const patience = 400, grace = 700, tick = 250;  // ms: until it says that it computes; until it is broken off
  const about = document.getElementById('about').content;  // the first page takes its place
  const bytesOf = id => {
    const text = atob(document.getElementById(id).textContent.trim()), bytes = new Uint8Array(text.length);
    for (let i = 0; i < text.length; ++i) bytes[i] = text.charCodeAt(i);  // forty times as fast as Uint8Array.from
    return bytes;
  };

  // --- the worker -----------------------------------------------------------------------------
  const source = URL.createObjectURL(new Blob([document.getElementById('worker').textContent], {type: 'text/javascript'}));
  const packed = bytesOf('module'), data = bytesOf('data');
  let worker, module, working = null, waiting = [], number = 0;
  const next = () => {
    if (working || !waiting.length) return;
    working = waiting.shift();
    working.since = performance.now();
    worker.postMessage({id: working.id, packet: working.packet});
  };
  const said = ({data: {id, answer, broken, module: compiled, memory}}) => {
    if (compiled) { module = compiled; return; }
    if (id === undefined && broken) { document.getElementById('first')?.replaceChildren(`It cannot begin here: ${broken}`); return; }
    if (!working || working.id !== id) return;
    const {resolve, reject} = working;
    place.memory = memory;
    working = null;
    if (broken) { hire(); reject(new Error(broken)); } else resolve(JSON.parse(answer));
    next();
  };
  const hire = () => {
    worker?.terminate();
    worker = new Worker(source);
    worker.onmessage = said;
    worker.postMessage({module, packed, data});
  };
  const breakOff = job => {
    if (working !== job) return;
    working = null;
    hire();
    next();
  };
  const asked = (packet, signal) => new Promise((resolve, reject) => {
    const job = {id: ++number, packet: JSON.stringify(packet), resolve, reject};
    signal?.addEventListener('abort', () => {
      reject(signal.reason);
      waiting = waiting.filter(other => other !== job);
      // What is nearly done is cheaper to wait for than a new worker.
      if (working === job) setTimeout(() => breakOff(job), Math.max(0, grace - (performance.now() - job.since)));
    });
    waiting.push(job);
    next();
  });
  const get = (target, signal) => asked({method: 'GET', target, type: '', body: ''}, signal);

  // --- that it computes, and how to stop it ------------------------------------------------------
  const busily = async (control, work) => {
    const begun = performance.now();
    const sign = document.createElement('p'), words = document.createElement('span'), stop = document.createElement('button');
    sign.id = 'busy';
    sign.setAttribute('role', 'status');
    stop.type = 'button';
    stop.textContent = 'Stop';
    stop.onclick = () => control.abort();
    sign.append(words, stop);
    const timer = setInterval(() => {
      const passed = performance.now() - begun;
      if (passed < patience) return;
      words.textContent = `Computing, ${(passed / 1000).toFixed(0)} s`;
      if (!sign.isConnected) document.body.append(sign);
    }, tick);
    try { return await work(); } finally { clearInterval(timer); sign.remove(); }
  };

  // --- frames, downloads ----------------------------------------------------------------------
  const addressOf = frame => frame.dataset.src || frame.getAttribute('src');
  // The frame runs no script. The base keeps its links to its own steps alive.
  const put = (frame, srcdoc) => {
    frame.setAttribute('sandbox', 'allow-same-origin allow-modals');  // it may be printed
    frame.setAttribute('srcdoc', srcdoc);
  };
  const fillWith = (frame, html) => put(frame, html.replace('<head>', '<head><base href="about:srcdoc">'));
  const fill = async (frame, signal) => {
    const address = addressOf(frame);
    frame.dataset.src = address;
    frame.removeAttribute('src');
    const shown = [...document.querySelectorAll('iframe.sheet')].find(other => other.dataset.src === address);
    if (shown) put(frame, shown.getAttribute('srcdoc'));
    else fillWith(frame, (await get(address, signal)).body);
  };
  const save = ({body, type, file}) => {
    const link = document.createElement('a');
    link.href = URL.createObjectURL(new Blob([body], {type}));
    link.download = file;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60000);
  };

  // --- what is kept in this browser -----------------------------------------------------------
  const shelf = 'vatwright kept';
  const kept = () => { try { return JSON.parse(localStorage.getItem(shelf)) || []; } catch { return []; } };
  const keep = all => {
    try { localStorage.setItem(shelf, JSON.stringify(all)); return true; } catch { return false; }
  };
  const element = (name, words, more = {}) => Object.assign(document.createElement(name), {textContent: words}, more);
  const lotsOf = recipe => [...recipe.matchAll(/^ {2}("[^"]*"|'[^']*'|[^\s#:][^:]*):/gm)].map(found => found[1].replace(/^["']|["']$/g, ''));
  const keepButton = () => {
    const recipe = new URLSearchParams(here().split('?')[1] || '').get('recipe');
    if (!recipe) return null;
    const line = element('p', '', {className: 'save'}), button = element('button', 'Keep in this browser', {type: 'button', className: 'quiet'});
    button.onclick = () => {
      const name = `${lotsOf(recipe).slice(0, 3).join(', ') || 'a recipe'}, ${new Date().toLocaleString()}`;
      const done = keep([{name, address: here()}, ...kept()]);
      line.replaceChildren(element('span', done ? `Kept as '${name}'; it stands on the first page.`
        : 'It cannot be kept: this browser has no room, or keeps nothing for files. Save it as a recipe.', {role: 'status'}));
    };
    line.append(button);
    return line;
  };
  const keptList = () => {
    const all = kept();
    if (!all.length) return null;
    const section = element('section', '', {className: 'kept'}), list = element('ul', '');
    section.append(element('h2', 'Kept in this browser'), list);
    for (const one of all) {
      const item = element('li', ''), forget = element('button', 'Forget it', {type: 'button', className: 'quiet'});
      forget.setAttribute('aria-label', `Forget ${one.name}`);
      forget.onclick = () => { keep(kept().filter(other => other.name !== one.name)); item.remove(); };
      item.append(element('a', one.name, {href: one.address}), forget);
      list.append(item);
    }
    return section;
  };

  // --- pages ----------------------------------------------------------------------------------
  const here = () => location.hash.startsWith('#/') ? location.hash.slice(1) : '/';
  const replace = address => history.replaceState(null, '', `#${address}`);
  const push = address => history.pushState(null, '', `#${address}`);
  const sheetPage = (html, address) => {
    const page = document.implementation.createHTMLDocument('Worksheet - vatwright');
    const main = page.createElement('main'), frame = page.createElement('iframe');
    main.id = 'main';
    const print = element('button', 'Print the sheet', {type: 'button', id: 'print'});
    main.append(element('h1', 'Worksheet'), print, frame);
    frame.className = 'sheet alone';
    frame.title = 'Worksheet';
    frame.dataset.src = address;
    fillWith(frame, html);
    page.body.append(main);
    return page;
  };
  const show = async (given, address, signal) => {
    if (given.broken) throw new Error(given.broken);
    const page = given.isSheet ? sheetPage(given.body, address) : new DOMParser().parseFromString(given.body, 'text/html');
    for (const link of page.querySelectorAll('header a[href^="/book"]')) link.remove();
    await Promise.all([...page.querySelectorAll('iframe[src]')].map(frame => fill(frame, signal)));
    signal.throwIfAborted();
    const main = page.querySelector('main');
    if (/^[/]([?].*)?$/.test(address)) { const list = keptList(); if (list) main.append(list); }
    const footer = page.querySelector('footer') || page.body.appendChild(page.createElement('footer'));
    footer.append(page.importNode(about, true));
    document.title = page.title;
    document.body.replaceChildren(...[...page.body.childNodes].map(node => document.importNode(node, true)));
    // What acts is put in after the copy, which carries no handlers.
    const list = document.querySelector('section.kept');
    if (list) list.replaceWith(keptList());
    const button = keepButton();
    if (button) document.querySelector('main').append(button);
    const print = document.getElementById('print');
    if (print) print.onclick = () => print.nextElementSibling.contentWindow.print();
    scrollTo(0, 0);
    const start = document.querySelector('main');
    start.tabIndex = -1;
    if (!document.querySelector('[autofocus]')) start.focus({preventScroll: true});
    document.body.dataset.page = address;
    place.shown ??= performance.now();  // since the file was opened
    // A page that came of a file has an address too, by what stands on its form.
    const live = document.querySelector('form[data-live="figures"]');
    if (live && !address.includes('?')) place.replace(`${live.getAttribute('action')}?${new URLSearchParams(new FormData(live))}`);
    place.begin();
  };
  // --- a telephone that has it from a server may install it: what it is called, where it begins, how it looks -------------
  const installable = () => {
    if (!location.protocol.startsWith('http')) return;
    const begin = location.href.split('#')[0], icon = document.querySelector('link[rel="icon"]').href;
    const manifest = {name: 'vatwright', short_name: 'vatwright', id: begin, start_url: begin, scope: begin, display: 'standalone',
      background_color: '#ffffff', theme_color: '#7a1f3d', icons: [{src: icon, sizes: 'any', type: 'image/svg+xml'}]};
    document.head.append(element('link', '', {rel: 'manifest', href: `data:application/manifest+json,${encodeURIComponent(JSON.stringify(manifest))}`}));
  };

  let going = null;
  const visit = async (packet, address, remembered) => {
    going?.abort();
    const control = going = new AbortController();
    try {
      await busily(control, async () => {
        const given = await asked(packet, control.signal);
        control.signal.throwIfAborted();
        if (given.file) return save(given);
        if (given.location) return visit({method: 'GET', target: given.location, type: '', body: ''}, given.location, remembered);
        remembered(address);
        return show(given, address, control.signal);
      });
    } catch (error) {
      if (error.name !== 'AbortError') document.getElementById('main').prepend(element('p', `Something went wrong that should not: ${error.message}`, {role: 'alert', className: 'failing'}));
    }
  };
  const go = (address, remembered = push) => visit({method: 'GET', target: address, type: '', body: ''}, address, remembered);
  const submit = async (form, submitter) => {
    const fields = new FormData(form), words = new URLSearchParams();
    if (submitter?.name) fields.append(submitter.name, submitter.value);
    for (const [name, value] of fields) words.append(name, typeof value === 'string' ? value : await value.text());
    const action = form.getAttribute('action') || here().split('?')[0];
    if (form.method === 'get') return go(`${action}?${words}`);
    return visit({method: 'POST', target: action, type: 'application/x-www-form-urlencoded', body: String(words)}, action, push);
  };

  document.addEventListener('click', event => {
    const link = event.target.closest?.('a[href]');
    if (!link || event.defaultPrevented || event.button !== 0) return;
    const address = link.getAttribute('href');
    if (address.startsWith('/')) {
      event.preventDefault();
      go(address);
    } else if (address.startsWith('#')) {  // within the page; the address after '#' is ours
      event.preventDefault();
      const target = document.getElementById(address.slice(1));
      target?.scrollIntoView();
      target?.focus();
    }
  });
  document.addEventListener('submit', event => {
    event.preventDefault();
    submit(event.target, event.submitter);
  });
  addEventListener('popstate', () => { if (document.body.dataset.page !== here()) go(here(), replace); });

  const place = {
    here, replace: address => { replace(address); document.body.dataset.page = address; }, push, submit, fill, addressOf,
    ask: async (address, signal) => (await get(address, signal)).body,
    packet: asked,
    start: () => { installable(); hire(); go(here(), replace); },
    begin: () => {},
  };
  return place;
})();
