// Three short tones and a shake when a countdown has ended: the driver looks at the gauge, not at the
// tablet. Says nothing where the browser has neither; the page shows the end in any case.
(function () {
  "use strict";

  var tablet = (window.guidegen = window.guidegen || {});
  var TONES = 3;
  var EACH = 0.18; // seconds of a tone, and of the pause after it
  var PITCH = 880; // hertz
  var sound = null;

  // Browsers let a page sound only from a tap on, so it is made ready at the start.
  tablet.prepareSignal = function () {
    try {
      sound = sound || new window.AudioContext();
      sound.resume();
    } catch (fault) {
      sound = null;
    }
  };

  tablet.giveSignal = function () {
    if (navigator.vibrate) {
      navigator.vibrate([300, 150, 300]);
    }
    for (var tone = 0; sound && tone < TONES; tone += 1) {
      var source = sound.createOscillator();
      var begin = sound.currentTime + tone * 2 * EACH;
      source.frequency.value = PITCH;
      source.connect(sound.destination);
      source.start(begin);
      source.stop(begin + EACH);
    }
  };
})();
