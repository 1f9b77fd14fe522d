// Before the first paint: cautions already read start folded. The marks are those of caution-gate.ts.
(function () {
  var read = '';
  try {
    read = ' ' + (sessionStorage.getItem('halfsplit.marks') || '') + ' ';
  } catch (refused) {
    return;
  }
  document.querySelectorAll('.caution').forEach(function (box) {
    var slug = ' ' + box.dataset.caution;
    var isRead = [' ', ':covered ', ':shut '].some(function (word, index) {
      return read.indexOf(slug + word) >= 0 && (index === 0 || box.dataset.state !== 'live');
    });
    if (!isRead) return;
    box.classList.add('read');
    box.querySelector('details').open = false;
  });
  document.querySelectorAll('.cautions > .closing').forEach(function (line) {
    line.hidden = read.indexOf(' closing ') >= 0;
  });
})();
