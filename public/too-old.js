// Says in words that a browser is too old, where the page would stay blank. A classic script in older syntax.
(() => {
  function tell() {
    if (document.getElementById('too-old')) return;
    const box = document.createElement('p');
    box.id = 'too-old';
    box.className = 'error-box';
    box.setAttribute('role', 'alert');
    box.textContent =
      'This browser is too old for Asfound. Update it, or the phone’s system. Oldest that work: iOS and Safari 16.4, Chrome 108, Firefox 121. What was recorded is still on this phone.';
    document.body.insertBefore(box, document.body.firstChild);
  }
  // Syntax that a browser does not know stops the app before its first line.
  addEventListener('error', (event) => event.error instanceof SyntaxError && tell());
  try {
    /(?<=a)b/;
    if (![].findLast || !CSS.supports('selector(:has(a))') || !CSS.supports('height: 1dvh')) tell();
  } catch (_error) {
    tell();
  }
})();
