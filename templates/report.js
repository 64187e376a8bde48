// Plays exactly the words of a line. Without this script the same links open the recording at their time.
(() => {
  const players = [...document.querySelectorAll("audio")];
  const links = [...document.querySelectorAll("a.play")];
  let playing = null; // the link whose words are being played
  let watch = 0;

  document.documentElement.classList.add("scripted");

  function show(audio) {
    for (const other of players) other.closest("figure").hidden = other !== audio;
  }

  function stop() {
    clearInterval(watch);
    if (playing) playing.removeAttribute("aria-current");
    playing = null;
  }

  function play(link, audio, start, end) {
    for (const other of players) other.pause();
    stop();
    show(audio);
    playing = link;
    link.setAttribute("aria-current", "true");
    audio.currentTime = start;
    audio.play().catch(stop);
    watch = setInterval(() => {
      if (audio.currentTime >= end || audio.ended) {
        audio.pause();
        stop();
      }
    }, 30);
  }

  for (const link of links) {
    link.addEventListener("click", (event) => {
      const [file, times] = link.getAttribute("href").split("#t=");
      const audio = players.find((player) => player.getAttribute("src") === file);
      if (!audio || event.ctrlKey || event.metaKey || event.shiftKey) return;
      event.preventDefault();
      if (playing === link) {
        audio.pause();
        stop();
        return;
      }
      const [start, end] = times.split(",").map(Number);
      play(link, audio, start, end ?? Infinity);
    });
  }
  if (players.length) show(players[0]);
})();
