// Types of the elements and of their events. A page needs none of this; an editor may.

/** A home note, spelled: a letter A to G, then `#`, `b` or nothing. */
export type HomeNote = string;

export type Mode = "ionian" | "dorian" | "phrygian" | "lydian" | "mixolydian" | "aeolian" | "locrian";

/** The reader turned a wheel. */
export interface HomeDetail {
  home: HomeNote;
  mode: Mode;
  /** Sharps (positive) or flats (negative) of the signature. */
  signature: number | null;
  /** The seven notes, from home upwards. */
  notes: string[];
  /** The key in one sentence. */
  words: string;
}

/** The reader pointed at a note of a tune, or left it: then everything is `null`. */
export interface NoteDetail {
  /** Its place among the tune's notes and rests, from 0. */
  index: number | null;
  /** The number of its bar; an opening pickup is bar 0. */
  bar: number | null;
  /** As written, with its octave: `F#4`. `null` for a rest. */
  pitch: string | null;
  /** The note in words. */
  words: string | null;
}

/** A tune was judged: when it is shown, when its text changes, when something is asked. */
export interface VerdictDetail {
  /** `null` where nothing honest can be said. */
  home: HomeNote | null;
  mode: Mode | null;
  /** 0 to 1, to four places. */
  chance: number | null;
  verdict: "clear" | "open" | "doubtful" | "none";
  /** The verdict in one line. */
  words: string;
  /** How sure, in words. */
  sure: string | null;
}

export interface ModewrightEventMap {
  "modewright-home": CustomEvent<HomeDetail>;
  "modewright-note": CustomEvent<NoteDetail>;
  "modewright-verdict": CustomEvent<VerdictDetail>;
}

declare global {
  interface HTMLElementTagNameMap {
    "modewright-wheel": HTMLElement;
    "modewright-tune": HTMLElement;
    "modewright-ask": HTMLElement;
    "modewright-lesson": HTMLElement;
  }
  interface HTMLElementEventMap extends ModewrightEventMap {}
  interface DocumentEventMap extends ModewrightEventMap {}
}
