// See caution-gate.ts, which looks at it again: after the first paint nothing moves.
(function () {
  var walk = document.querySelector('node-walk');
  var read = '';
  var isOutside;
  try {
    read = ' ' + sessionStorage.getItem('halfsplit.marks') + ' ';
    isOutside = /^o/.test(sessionStorage.getItem('halfsplit.mains'));
  } catch (refused) {}
  document.querySelectorAll('.caution').forEach(function (box) {
    var data = box.dataset;
    var isRead = [' ', ':covered ', ':shut '].some(function (word, index) {
      return read.indexOf(' ' + data.caution + word) >= 0 && (index === 0 || data.state !== 'live');
    });
    var isPlug = data.caution === 'first-plug';
    if ((isPlug && isRead) || (isOutside && (isPlug || data.derived != null))) box.hidden = true;
    else if (isRead) {
      box.classList.add('read');
      box.querySelector('details').open = false;
    } else if (data.state && !walk.dataset.gated) {
      box.classList.add('gate-now');
      walk.dataset.gated = 1;
    }
  });
  document.querySelectorAll('.cautions > .closing').forEach(function (line) {
    line.hidden = read.indexOf(' closing ') >= 0;
  });
  walk.onclick = function (event) {
    if (!walk.map && event.target.dataset.acknowledge != null) delete walk.dataset.gated;
  };
})();
