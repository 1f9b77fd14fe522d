// See caution-gate.ts, which looks at it again: after the first paint nothing moves.
(function () {
  var walk = document.querySelector('node-walk');
  var tree = location.pathname.split('/').slice(-4)[1];
  var unit = (/[#&]unit=([\w-]+)/.exec(location.hash) || [])[1];
  var read = '';
  var isOutside;
  // What was read or said of another unit says nothing here.
  function isHere(owner, unitOf) {
    var job = localStorage.getItem('halfsplit.job-open');
    var brief = localStorage.getItem('halfsplit.job-brief') || '';
    var same = '\n' + sessionStorage.getItem('halfsplit.tree-units') + '\n';
    var trees = (/"trees":\[([^\]]*)\]/.exec(brief) || [])[1];
    // A job that is not open any more is another unit's.
    var isOfJob =
      owner === job &&
      trees !== undefined &&
      (!trees || trees.indexOf('"' + tree + '"') >= 0 || same.indexOf('\n' + owner + ' ' + tree + ' same\n') >= 0);
    return (owner === 'tree:' + tree || isOfJob) && (!unit || !unitOf || unit === unitOf);
  }
  try {
    var owner = (sessionStorage.getItem('halfsplit.marks-of') || '').split(' ');
    var mains = (sessionStorage.getItem('halfsplit.mains') || '').split(' ');
    if (!owner[0] || isHere(owner[0], owner[1])) read = ' ' + sessionStorage.getItem('halfsplit.marks') + ' ';
    isOutside = mains[0] === 'outside' && isHere(mains[1]);
  } catch (refused) {}
  document.querySelectorAll('.caution').forEach(function (box) {
    var data = box.dataset;
    var isRead = [' ', ':covered ', ':shut ', ':unused '].some(function (word, index) {
      var counts = index === 0 || (index === 3 ? data.optional != null : data.state !== 'live');
      return counts && read.indexOf(' ' + data.caution + word) >= 0;
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
