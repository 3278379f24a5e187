import { look } from '../look.svelte';

/** What eye and ear are told beside the words; nothing rests on any of it. */
let sound: AudioContext | null = null;

/** A low tone and a shake; gives whether the phone could shake. */
export function warn(): boolean {
  try {
    sound ??= new AudioContext();
    const tone = sound.createOscillator();
    const volume = sound.createGain();
    tone.frequency.value = 170;
    volume.gain.value = 0.2;
    tone.connect(volume).connect(sound.destination);
    tone.start();
    tone.stop(sound.currentTime + 0.25);
  } catch {
    // No sound here.
  }
  return 'vibrate' in navigator && navigator.vibrate([120, 60, 120]);
}

/** Speaks, without waiting for what it said before. */
export function speak(words: string): void {
  if (!('speechSynthesis' in window)) return;
  speechSynthesis.cancel();
  const said = new SpeechSynthesisUtterance(words);
  said.lang = look.language === 'de' ? 'de-DE' : 'en-GB';
  speechSynthesis.speak(said);
}
