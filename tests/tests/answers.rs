//! The shared fixture of answers: what the engine gives for every call of the package. The command
//! and the package read the same file.

use modewright_core::count::{CountOptions, Detail, System};
use modewright_core::find::{find, find_given};
use modewright_core::fingering::{self, plan};
use modewright_core::instrument::Instrument;
use modewright_formats::instrument::{builtin, read as read_instruments};
use modewright_formats::source::{TuneText, split};
use modewright_formats::{ReadOptions, Reading, read};
use modewright_lesson::answer::{
    CountAnswer, FindAnswer, FingeringAnswer, FitAnswer, InstrumentListAnswer, InstrumentsAnswer,
    PictureAnswer, ReadAnswer, TransposeAnswer, WalkAnswer, WhoAnswer,
};
use modewright_lesson::ask::{self, Choice, Refusal, TextAsk, choose};
use modewright_lesson::convert::{Format, bytes, read_for};
use modewright_lesson::moving::{Aim, Wish};
use modewright_lesson::walk::{WalkOptions, Wording, walk};
use modewright_lesson::words::{self, Advice};
use modewright_sheet::picture::picture;
use modewright_sheet::{Part, Played, Request, Sheet, USUAL_ROWS, engrave, html, pdf, svg};
use modewright_sound::{PerformOptions, Performance, RATE, Voice, compare, render, wav};
use modewright_tests::{json, path};
use serde_json::{Value, json};

const FILE: &str = "fixtures/answers.json";

/// What lists all instruments in the package.
const LISTS: &str = "instrumentList()";

/// What was refused, as the package throws it.
type Refused = Value;

fn refused(refusal: &Refusal) -> Refused {
    json!({"code": refusal.code, "option": refusal.option, "hint": refusal.advice.hint,
        "message": format!("{}: {}", refusal.option, refusal.advice.message),
        "line": null, "column": null})
}

fn plainly(code: &str, option: Option<&str>, advice: &Advice) -> Refused {
    json!({"code": code, "option": option, "hint": advice.hint, "message": advice.message,
        "line": null, "column": null})
}

/// The arguments of a call.
struct Args<'a>(&'a Value);

impl Args<'_> {
    fn first(&self) -> String {
        self.0[0].as_str().expect("a text").to_owned()
    }

    fn list(&self) -> Vec<String> {
        self.0[0].as_array().expect("a list").iter().map(texted).collect()
    }

    fn text(&self, name: &str) -> Option<String> {
        let value = &self.0[1][name];
        (!value.is_null()).then(|| texted(value))
    }

    fn texts(&self, name: &str) -> Vec<String> {
        match &self.0[1][name] {
            Value::Array(list) => list.iter().map(texted).collect(),
            Value::Null => Vec::new(),
            one => vec![texted(one)],
        }
    }

    fn flag(&self, name: &str) -> bool {
        self.0[1][name].as_bool().unwrap_or_default()
    }

    fn number(&self, name: &str) -> Option<u32> {
        self.0[1][name].as_u64().map(|number| u32::try_from(number).expect("a small number"))
    }

    fn choice<T: Choice>(&self, name: &'static str) -> Result<Option<T>, Refused> {
        let word = self.text(name);
        word.map(|word| choose(name, &word)).transpose().map_err(|why| refused(&why))
    }

    fn choices<T: Choice>(&self, name: &'static str) -> Vec<T> {
        self.texts(name).iter().map(|word| choose(name, word).expect("a word of ours")).collect()
    }

    fn source(&self) -> String {
        self.text("source").unwrap_or_else(|| "-".to_owned())
    }

    fn options(&self) -> Result<ReadOptions, Refused> {
        let (metre, pickup) = (self.text("metre"), self.text("pickup"));
        let ask =
            TextAsk { metre: metre.as_deref(), pickup: pickup.as_deref(), ..TextAsk::default() };
        ask.options().map_err(|why| refused(&why))
    }

    fn tune_text(&self) -> Result<TuneText, Refused> {
        let (text, place) = (self.first(), self.number("tune").unwrap_or(1) as usize);
        let all: Vec<TuneText> = split(&text).collect();
        if all.is_empty() {
            return Ok(TuneText::default());
        }
        all.get(place - 1).cloned().ok_or_else(|| {
            let advice = words::no_such_tune(&self.source(), place, all.len());
            plainly("no-such-tune", Some("tune"), &advice)
        })
    }

    fn reading(&self) -> Result<Reading, Refused> {
        let options = self.options()?;
        Ok(read(&self.tune_text()?, &options))
    }

    fn count(&self, detail: Detail) -> Result<CountOptions, Refused> {
        let system = System {
            simple: self.choice("simple")?.unwrap_or_default(),
            compound: self.choice("compound")?.unwrap_or_default(),
            uneven: self.choice("uneven")?.unwrap_or_default(),
        };
        Ok(CountOptions { system, detail })
    }

    fn aim(&self) -> Result<Option<Aim>, Refused> {
        let aim = ask::aim(self.text("to").as_deref(), self.text("by").as_deref());
        aim.map_err(|why| refused(&why))
    }

    fn own(&self) -> Result<Vec<Instrument>, Refused> {
        self.text("own").map_or_else(|| Ok(Vec::new()), |own| instruments_of(&own))
    }

    fn instrument(&self, option: &'static str) -> Result<Option<Instrument>, Refused> {
        let (name, own) = (self.text(option), self.own()?);
        if name.is_none() && own.is_empty() {
            return Ok(None);
        }
        let found = ask::instrument(option, &own, name.as_deref(), LISTS);
        found.map(Some).map_err(|why| refused(&why))
    }
}

fn texted(value: &Value) -> String {
    value.as_str().map_or_else(|| value.to_string(), str::to_owned)
}

fn instruments_of(own: &str) -> Result<Vec<Instrument>, Refused> {
    read_instruments(own).map_err(|error| {
        let mut refused = plainly(error.kind.code(), None, &words::instrument_error(&error));
        refused["line"] = error.line.into();
        refused["column"] = error.column.into();
        refused
    })
}

/// Bytes by their length and their FNV-1a mark of 64 bits.
fn marked(bytes: &[u8]) -> Value {
    let hash = bytes.iter().fold(0xcbf2_9ce4_8422_2325_u64, |hash, byte| {
        (hash ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3)
    });
    json!({"bytes": bytes.len(), "fnv": format!("{hash:016x}")})
}

fn value(answer: impl serde::Serialize) -> Value {
    serde_json::to_value(answer).expect("an answer is JSON")
}

fn find_call(args: &Args<'_>) -> Result<Value, Refused> {
    let reading = args.reading()?;
    let given = ask::given(args.text("home").as_deref(), args.text("mode").as_deref());
    let finding = find_given(&reading.tune, given.map_err(|why| refused(&why))?);
    Ok(value(FindAnswer::new(&args.source(), &reading.tune, &finding, &reading.problems)))
}

fn find_all(args: &Args<'_>) -> Result<Value, Refused> {
    let text = args.first();
    let answers = split(&text).map(|tune| {
        let reading = read(&tune, &ReadOptions::default());
        let finding = find(&reading.tune);
        value(FindAnswer::new(&args.source(), &reading.tune, &finding, &reading.problems))
    });
    Ok(answers.collect())
}

fn fit_call(args: &Args<'_>) -> Result<Value, Refused> {
    let named = args.texts("on");
    let named: Vec<&str> = named.iter().map(String::as_str).collect();
    let on = ask::instruments("on", &args.own()?, &named, LISTS).map_err(|why| refused(&why))?;
    let tune = args.reading()?.tune;
    let finding = find(&tune);
    let of = |it| value(FitAnswer::new(&args.source(), &tune, &finding, it, builtin::all()));
    Ok(on.iter().map(of).collect())
}

fn fingering_call(args: &Args<'_>) -> Result<Value, Refused> {
    let instrument = args.instrument("on")?.expect("a call names one");
    let style = ask::style(&instrument, args.text("style").as_deref());
    let ask = ask::FingeringAsk {
        instrument: &instrument,
        options: fingering::Options {
            style: style.map_err(|why| refused(&why))?,
            unconfirmed: args.flag("unconfirmed"),
        },
        aim: args.aim()?,
        harmony: args.flag("harmony"),
    };
    let reading = args.reading()?;
    let answer = ask::fingered(reading.tune, &ask, |tune| {
        value(FingeringAnswer::new(&args.source(), tune, &reading.problems))
    });
    answer.map_err(|why| plainly(why.code(), None, &words::unmoved(&why)))
}

fn transpose_call(args: &Args<'_>) -> Result<Value, Refused> {
    let instrument = args.instrument("for")?;
    let wish = Wish {
        aim: args.aim()?.unwrap_or(Aim::Best),
        instrument: instrument.as_ref(),
        fold: args.flag("fold"),
    };
    Ok(value(TransposeAnswer::new(&args.first(), &ReadOptions::default(), &wish)))
}

fn sheet(args: &Args<'_>) -> Result<(Sheet, modewright_lesson::walk::Walk), Refused> {
    let instrument = args.instrument("on")?;
    let tune = args.reading()?.tune;
    let finding = find(&tune);
    let plan = instrument.as_ref().map(|it| plan(&tune, it, fingering::Options::default()));
    let rows = args.choices("rows");
    let request = Request {
        paper: args.choice("paper")?.unwrap_or_default(),
        rows: if rows.is_empty() { USUAL_ROWS.to_vec() } else { rows },
        marked: args.choices("mark"),
        names: args.choice("names")?.unwrap_or_default(),
        count: args.count(Detail::Beats)?,
        key: finding.best().map(|best| best.key),
        played: instrument.as_ref().zip(plan.as_ref()).map(|(it, plan)| Played::of(it, plan)),
    };
    let options = WalkOptions {
        values: args.choice("values")?.unwrap_or_default(),
        names: request.names,
        count: request.count,
        awkward: plan.as_ref().map_or_else(Vec::new, fingering::Plan::awkward),
    };
    let walk = walk(&tune, &finding, &Wording::english(), &options);
    Ok((engrave(&tune, &request.options(&tune)), walk))
}

#[expect(clippy::cast_precision_loss, reason = "a quarter of an hour at most")]
fn sounded(performance: &Performance, voice: Voice) -> Value {
    let seconds = |nanoseconds: u64| nanoseconds as f64 / 1e9;
    let samples = render(performance, voice);
    let bytes: Vec<u8> = samples.iter().flat_map(|sample| sample.to_le_bytes()).collect();
    let notes = performance.notes.iter().map(|note| {
        json!({"index": note.event, "start": seconds(note.start), "length": seconds(note.length),
            "midi": note.midi})
    });
    let clicks = performance.clicks.iter();
    let clicks = clicks.map(|it| json!({"at": seconds(it.at), "first": it.first}));
    json!({"rate": RATE, "seconds": seconds(performance.length),
        "notes": notes.collect::<Value>(), "clicks": clicks.collect::<Value>(),
        "samples": marked(&bytes)})
}

fn performed(args: &Args<'_>) -> Result<(Performance, Voice), Refused> {
    let options = PerformOptions {
        per_minute: args.number("tempo"),
        count_in: args.number("count_in").unwrap_or(1),
        repeats: !args.flag("once"),
        ..PerformOptions::default()
    };
    let word = args.text("timbre").unwrap_or_else(|| "plucked".to_owned());
    let voice = Voice::WORDS.iter().find(|(name, _)| *name == word).expect("a voice").1;
    let performance = Performance::of(&args.reading()?.tune, &options).expect("it can be played");
    Ok((performance, voice))
}

fn converted(args: &Args<'_>, format: Format) -> Result<Vec<u8>, Refused> {
    let tune = read_for(&args.tune_text()?, &args.options()?).tune;
    Ok(bytes(&[(tune, Vec::new())], format))
}

fn called(call: &str, args: &Args<'_>) -> Result<Value, Refused> {
    Ok(match call {
        "find" => find_call(args)?,
        "findAll" => find_all(args)?,
        "read" => value(ReadAnswer::new(&args.source(), &args.reading()?)),
        "scale" => value(ask::scale("name", &args.first()).map_err(|why| refused(&why))?),
        "count" => {
            let detail = if args.flag("full") { Detail::Full } else { Detail::Beats };
            let count = args.count(detail)?;
            let reading = args.reading()?;
            value(CountAnswer::new(&args.source(), &reading.tune, count, &reading.problems))
        }
        "transpose" => transpose_call(args)?,
        "fit" => fit_call(args)?,
        "fingering" => fingering_call(args)?,
        "instruments" => {
            let names = args.list();
            let names: Vec<&str> = names.iter().map(String::as_str).collect();
            let found =
                ask::instruments("names", &[], &names, LISTS).map_err(|why| refused(&why))?;
            value(InstrumentsAnswer::new(&found))
        }
        "checkInstruments" => value(InstrumentsAnswer::new(&instruments_of(&args.first())?)),
        "instrumentList" => value(InstrumentListAnswer::new(builtin::all())),
        "whoPlays" => {
            let named = args.texts("on");
            let named: Vec<&str> = named.iter().map(String::as_str).collect();
            let on =
                ask::instruments("on", &args.own()?, &named, LISTS).map_err(|why| refused(&why))?;
            let tune = args.reading()?.tune;
            value(WhoAnswer::new(&tune, &find(&tune), &on))
        }
        "instrumentPicture" => {
            let instrument = args.instrument("on")?.expect("a call names one");
            let tune = args.reading()?.tune;
            let path = plan(&tune, &instrument, fingering::Options::default());
            let home = find(&tune).best().map(|best| best.key.home);
            let drawing = picture(&instrument, &path, home);
            let drawn = modewright_sheet::picture::svg(&drawing);
            value(PictureAnswer::new(drawn, drawing.title, drawing.legend))
        }
        "walk" => value(WalkAnswer::new(&sheet(args)?.1)),
        "sheetSvg" => marked(svg(&sheet(args)?.0).as_bytes()),
        "sheetHtml" => {
            let (sheet, walk) = sheet(args)?;
            let parts: Vec<Part> = walk.sections.iter().map(Part::from).collect();
            marked(html(&sheet, &parts).as_bytes())
        }
        "sheetPdf" => {
            let file = pdf(&sheet(args)?.0).expect("a sheet of ours is written");
            json!({"bytes": marked(&file), "missing": [], "problem": null})
        }
        "toAbc" => String::from_utf8_lossy(&converted(args, Format::Abc)?).into_owned().into(),
        "toMusicXml" => marked(&converted(args, Format::MusicXml)?),
        "toMxl" => marked(&converted(args, Format::Packed)?),
        "toMidi" => marked(&converted(args, Format::Midi)?),
        "play" => {
            let (performance, voice) = performed(args)?;
            sounded(&performance, voice)
        }
        "wav" => {
            let (performance, voice) = performed(args)?;
            marked(&wav(&render(&performance, voice)))
        }
        "compareScales" => {
            let keys = args.list();
            let keys: Vec<_> =
                keys.iter().map(|name| ask::key("names", name).expect("a key")).collect();
            sounded(&compare(&keys), Voice::default())
        }
        other => panic!("{FILE}: there is no call `{other}`"),
    })
}

#[test]
fn every_call_of_the_fixture_has_its_answer() {
    let mut fixture = json(FILE);
    let calls = fixture["calls"].as_array_mut().expect("a list of calls");
    assert!(calls.len() > 40);
    let write = std::env::var_os("MODEWRIGHT_GOLDEN").is_some_and(|v| v == "write");
    for call in calls {
        let name = call["call"].as_str().expect("a name").to_owned();
        let args = call["args"].clone();
        let (kind, found) = match called(&name, &Args(&args)) {
            Ok(answer) => ("gives", answer),
            Err(refused) => ("refuses", refused),
        };
        if write {
            *call = json!({"call": name, "args": args, kind: found});
        } else {
            assert_eq!(call[kind], found, "{name} {args}");
        }
    }
    if write {
        // A call to a line, so that a changed answer is one changed line.
        let calls = fixture["calls"].as_array().expect("a list of calls");
        let lines: Vec<String> = calls.iter().map(Value::to_string).collect();
        let about = &fixture["about"];
        let text = format!("{{\"about\": {about},\n\"calls\": [\n{}\n]}}\n", lines.join(",\n"));
        std::fs::write(path(FILE), text).expect("the fixture can be written");
    }
}
