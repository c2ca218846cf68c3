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

/** The events by name. They bubble, so that they can be heard on the document too. */
export interface ModewrightEventMap {
  "modewright-home": CustomEvent<HomeDetail>;
  "modewright-note": CustomEvent<NoteDetail>;
  "modewright-verdict": CustomEvent<VerdictDetail>;
}

/** An element; everything about it is in its attributes and its text. */
export interface ModewrightElement extends HTMLElement {
  addEventListener<K extends keyof ModewrightEventMap>(
    type: K,
    listener: (this: this, event: ModewrightEventMap[K]) => unknown,
    options?: boolean | AddEventListenerOptions,
  ): void;
  addEventListener<K extends keyof HTMLElementEventMap>(
    type: K,
    listener: (this: this, event: HTMLElementEventMap[K]) => unknown,
    options?: boolean | AddEventListenerOptions,
  ): void;
  addEventListener(
    type: string,
    listener: EventListenerOrEventListenerObject,
    options?: boolean | AddEventListenerOptions,
  ): void;
  removeEventListener<K extends keyof ModewrightEventMap>(
    type: K,
    listener: (this: this, event: ModewrightEventMap[K]) => unknown,
    options?: boolean | EventListenerOptions,
  ): void;
  removeEventListener<K extends keyof HTMLElementEventMap>(
    type: K,
    listener: (this: this, event: HTMLElementEventMap[K]) => unknown,
    options?: boolean | EventListenerOptions,
  ): void;
  removeEventListener(
    type: string,
    listener: EventListenerOrEventListenerObject,
    options?: boolean | EventListenerOptions,
  ): void;
}

/** `<modewright-wheel>`: a wheel that shows a key. */
export interface ModewrightWheel extends ModewrightElement {}
/** `<modewright-tune>`: a tune on a staff. */
export interface ModewrightTune extends ModewrightElement {}
/** `<modewright-ask>`: a box to paste a tune into. */
export interface ModewrightAsk extends ModewrightElement {}
/** `<modewright-lesson>`: all there is to say about a tune. */
export interface ModewrightLesson extends ModewrightElement {}

/** Attributes that take one of a few words, for those who write elements in a language with types. */
export interface ModewrightWords {
  view: "fifths" | "pitch";
  sound: "on" | "off";
  /** Per cent, from 40 to 200. */
  speed: `${number}`;
  "count-in": "0" | "1" | "2";
  values: "british" | "american";
  level: "1" | "2" | "3" | "4" | "5" | "6";
}

declare global {
  interface HTMLElementTagNameMap {
    "modewright-wheel": ModewrightWheel;
    "modewright-tune": ModewrightTune;
    "modewright-ask": ModewrightAsk;
    "modewright-lesson": ModewrightLesson;
  }
  interface HTMLElementEventMap extends ModewrightEventMap {}
  interface DocumentEventMap extends ModewrightEventMap {}
  interface WindowEventMap extends ModewrightEventMap {}
}
