"""What reading asks of the files, before any rule looks at the case: the manual entries of its findings.

Nothing here looks: `load`, `understand`, `clauses` and `build` find these where they read."""

from __future__ import annotations

from dataclasses import dataclass

from scopegen.findings import Level

TEXT, KEYS, FOLDER = "reading a file", "keys and values", "the folder of a job"


@dataclass(frozen=True, slots=True)
class ReadingRule:
    """What a file must be so that it can be read. Where `laid`, `passes` and `fails` are pieces of YAML like
    those of a rule; otherwise they are a file's own lines. Both are empty where no lines can show it."""

    id: str
    family: str
    asks: str
    why: str
    passes: str = ""
    fails: str = ""
    laid: bool = False
    level: Level = Level.STOPS  # what could not be read is never guessed
    source: str = ""


_DOGS = (
    "clauses: {{{file}: '{{clause: {name}, title: {{en: Our dogs}}, needs: [property],"
    " when: {{{when}}}, wording: [{{season: 2027, en: {{"
    'says: "Our dogs stay in the truck at {{{{ property }}}}."}}}}]}}\'}}'
)
_FILE = "terms/our-dogs.yaml"
READING: tuple[ReadingRule, ...] = (
    ReadingRule(
        "unreadable-file", TEXT, "The file is there, and you may read it.",
        "A mistyped name, a folder in place of a file or the other way round, or a file that belongs to"
        " somebody else. A link is followed inside the folder of company.yaml and no further.",
    ),
    ReadingRule(
        "folder-loop", TEXT, "No folder of clauses is a link back to a folder that it lies in.",
        "Everything would be found in it once more, the job itself as a clause. Such a link is passed over.",
        level=Level.WARNS,
    ),
    ReadingRule(
        "too-large", TEXT, "A file has at most a megabyte.",
        "A job description has a few pages. A larger file is a picture, or many jobs in one.",
    ),
    ReadingRule(
        "not-text", TEXT, "A file is plain text in UTF-8.",
        "Word processors, pictures and PDFs are no plain text, and old editors save accents in another way."
        " What cannot be read for sure is not guessed.",
    ),
    ReadingRule(
        "empty-file", TEXT, "A file says something.",
        "A file with nothing but comments was saved too early, or is another one than you think.",
        "job: Front beds\nwalked: 2027-03-18\n", "# job: Front beds\n# walked: 2027-03-18\n",
    ),
    ReadingRule(
        "not-a-mapping", TEXT, "A file is made of lines like 'key: value'.",
        "A list, or a sentence, has no keys by which anything in it could be found.",
        "job: Front beds\nwalked: 2027-03-18\n", "- Front beds\n- walked on 2027-03-18\n",
    ),
    ReadingRule(
        "yaml", TEXT, "A file is YAML: its lines line up, what is opened is closed.",
        "Keys that belong together start in the same column, with spaces and never tabs. Each { has its"
        " }, each [ its ], each quote its quote.",
        "found: {edge: soft, weeds: light}\nmeasured_by: tape\n",
        "found: {edge: soft, weeds: light\nmeasured_by: tape\n",
    ),
    ReadingRule(
        "alias", TEXT, "A value is written where it stands.",
        "YAML can name a value with & and repeat it with *. A note that starts with such a sign would"
        " silently become something else.",
        'note: "*mind the dog"\n', "note: *mind\n",
    ),
    ReadingRule(
        "tag", TEXT, "A value starts with no exclamation mark.",
        "YAML takes a word with ! for a kind of value. Text that starts so stands in quotes.",
        'note: "!mind the dog"\n', "note: !mind the dog\n",
    ),
    ReadingRule(
        "directive", TEXT, "No line starts with %.",
        "YAML takes it for an instruction to itself, and the line would be lost.",
        "job: Front beds\n", "%YAML 1.2\n---\njob: Front beds\n",
    ),
    ReadingRule(
        "second-document", TEXT, "A file is one document.",
        "A line of three dashes starts a second one. What stands below it would not be read.",
        "job: Front beds\nwalked: 2027-03-18\n", "job: Front beds\n---\nwalked: 2027-03-18\n",
    ),
    ReadingRule(
        "repeated-key", TEXT, "A key is given once.",
        "Of two prices one would win, and nobody could say which.",
        "worker_hour: 62.00\n", "worker_hour: 62.00\nworker_hour: 58.00\n",
    ),
    ReadingRule(
        "no-key", TEXT, "A value has a key.",
        "A value alone says nothing about what it is.",
        "walked: 2027-03-18\n", ": 2027-03-18\n",
    ),
    ReadingRule(
        "bare-key", TEXT, "Numbers and text inside braces hold no comma.",
        "Inside braces a comma starts the next key: 1,200.00 would become 1.",
        "delivery: {load: 6 yd3, payload: 9000 lb, fee: 1200.00}\n",
        "delivery: {load: 6 yd3, payload: 9000 lb, fee: 1,200.00}\n",
    ),
    ReadingRule(
        "lost-comment", TEXT, "Text that holds # and a number stands in quotes.",
        "YAML takes # for a comment. The number of the gate would be lost, and nobody would notice.",
        'note: "Use gate #2."\n', "note: Use gate #2.\n",
    ),
    ReadingRule(
        "hidden-sign", TEXT,
        "A file holds no sign that cannot be seen, and no more than 4 marks on one letter.",
        "Text that is copied from a web page or a chat can bring signs without a width, or signs that turn"
        " the direction of reading. What stands on the paper would not be what was read on the screen. Marks"
        " heaped on a letter cover the lines around it.",
    ),
    ReadingRule(
        "long-text", TEXT, "A text has at most 10,000 characters.",
        "No note is so long. Most often a quote was not closed where it should have been.",
    ),
    ReadingRule(
        "too-many-items", TEXT, "A file has at most 75,000 keys and values.",
        "No job and no price chart has so many. A program wrote it, or it was copied into itself.",
    ),
    ReadingRule(
        "nested-too-deep", TEXT, "Values are nested at most 40 deep.",
        "A bed's decision stands six deep. Far deeper ones are slips of indentation.",
    ),
    ReadingRule(
        "undrawable-character", KEYS, "The papers' fonts can draw every character.",
        "A character that a font lacks would print as an empty box, in a name or in a price. The papers have"
        " Latin, Greek and Cyrillic letters and the signs of the trade; a picture sign says nothing exactly.",
        "job: {job: Jardín de la señora Ejemplo}", "job: {job: Front beds 🌱}", laid=True,
    ),
    ReadingRule(
        "unknown-key", KEYS, "Every key is one that is known at its place.",
        "A mistyped key would be passed over, and what it says would stand in the file and on no paper.",
        "job: {walked: 2027-03-18}", "job: {wlaked: 2027-03-18}", laid=True,
    ),
    ReadingRule(
        "missing-key", KEYS, "Every key that a section needs is there.",
        "Without a customer, a date or a price there is nothing to write.",
        "job: {customer: {name: Pat Sample, property: 1 Ruler Road}}",
        "job: {customer: {name: Pat Sample, property: (left out)}}", laid=True,
    ),
    ReadingRule(
        "unknown-word", KEYS, "Where one of a few words belongs, one of them stands.",
        "Prices, clauses and notices hang on these words. A near miss is not guessed.",
        "job: {signed_at: our office}", "job: {signed_at: in the office}", laid=True,
    ),
    ReadingRule(
        "value", KEYS, "A value is of its kind: a quantity has its unit, a day is one, money has its cents.",
        "A bare number could be feet or inches, dollars or percent. It is not guessed.",
        "job: {offer_stands: 10 days}", "job: {offer_stands: 10}", laid=True,
    ),
    ReadingRule(
        "not-a-group", KEYS, "Where keys belong, keys stand.",
        "A sentence in place of a group of keys cannot be priced or put on paper.",
        "job: {site: {access: {decided: included, note: The gate is open.}}}",
        "job: {site: The gate is open.}",
        laid=True,
    ),
    ReadingRule(
        "too-many-entries", KEYS,
        "A job has at most 1,000 beds, a shape 200 points, any other list 100 entries.",
        "Nobody signs a paper of a thousand pages. A program wrote the list, or it was copied into itself.",
        "job: {extras: [{work: shrub-trim, worker_hours: 1 h, decided: excluded}]}",
        f"job: {{extras: [{', '.join(['{work: shrub-trim, worker_hours: 1 h, decided: excluded}'] * 101)}]}}",
        laid=True,
    ),
    ReadingRule(
        "not-a-list", KEYS, "Where a list belongs, its entries start with a dash.",
        "Without the dash a second bed would repeat the keys of the first.",
        "job: {beds: [{name: Front bed}]}", "job: {beds: {name: Front bed}}", laid=True,
    ),
    ReadingRule(
        "not-a-job", FOLDER, "The file that is named is a job description.",
        "A job description has 'job', 'customer' and 'beds'. A price chart or company.yaml is read with"
        " each job.",
        "job: Front beds\n", "name: Alder Fork Grounds\nphone: 555-0142\n",
    ),
    ReadingRule(
        "no-workspace", FOLDER, "company.yaml lies beside the job, or in a folder above it.",
        "Without it the paper has no seller. `scopegen start` lays out such a folder.",
    ),
    ReadingRule(
        "no-chart", FOLDER, "There is a price chart for the job's season.",
        "The season picks the chart, prices-<season>.yaml. Another season's prices are not taken in"
        " its place.",
        "job: {season: 2027}", "job: {season: 2031}", laid=True,
    ),
    ReadingRule(
        "unknown-language", FOLDER, "There are words in the paper's language.",
        "Headings, days and amounts are written in the language that the job names, or not at all.",
        "job: {language: en}", "job: {language: xx}", laid=True,
    ),
    ReadingRule(
        "not-in-language", FOLDER,
        "What a paper prints of the price chart and of company.yaml is there in its language.",
        "A customer signs what they can read. A text that stands alone is in the house's language, which"
        " company.yaml names. A text for papers in several languages is a group, such as {en: Weed by hand,"
        " es: Deshierbe a mano}. Texts that the job does not print are not asked for.",
        "{job: {language: es}, company: {language: es}}", "job: {language: es}", laid=True,
    ),
    ReadingRule(
        "clause-text", FOLDER, "A clause's text holds words, blanks and simple conditions, and nothing else.",
        "A clause is wording, and no program: it names what a job has, and asks whether a job has it. What"
        " goes beyond that is refused when it is read, and never run.",
        _DOGS.format(file=_FILE, name="terms.our-dogs", when="beds: {at_most: 9}"),
        _DOGS.format(file=_FILE, name="terms.our-dogs", when="").replace(
            "{{ property }}", "{{ property|upper }}"
        ),
        laid=True,
    ),
    ReadingRule(
        "clause-name", FOLDER, "A clause calls itself by its folder and its file.",
        "The price chart names clauses so. A clause under another name would never be found, and the one that"
        " ships would stay.",
        _DOGS.format(file=_FILE, name="terms.our-dogs", when=""),
        _DOGS.format(file=_FILE, name="terms.dogs", when=""),
        laid=True,
    ),
    ReadingRule(
        "clause-not-read", FOLDER,
        "A clause lies in clauses/, in the folder of its decision, and its file ends in .yaml.",
        "A file beside those folders, deeper down, or with another ending would be passed over without a"
        " word, and the paper would say what ships. Notes (.md, .txt), hidden files and editors' copies are"
        " left alone.",
        _DOGS.format(file=_FILE, name="terms.our-dogs", when=""),
        _DOGS.format(file="terms/our-dogs.yml", name="terms.our-dogs", when=""),
        laid=True, level=Level.WARNS,
    ),
    ReadingRule(
        "clause-folder", FOLDER, "The folder of a clause is that of a decision, or site, terms, cautions or"
        " outcomes.",
        "A clause in another folder is on no paper, unless a price chart names it with that folder.",
        _DOGS.format(file=_FILE, name="terms.our-dogs", when=""),
        _DOGS.format(file="term/our-dogs.yaml", name="term.our-dogs", when=""),
        laid=True, level=Level.WARNS,
    ),
    ReadingRule(
        "clauses-lock", FOLDER, "What was put on paper is on record as it was.",
        "`write agreement` keeps the wording of each paper in clauses.lock, so that a later change to it is"
        " found. Nobody edits that file, but that a line may be taken out where its paper was never signed.",
    ),
    ReadingRule(
        "clause-condition", FOLDER, "The conditions of a clause ask for what jobs can have.",
        "A condition that no job can meet keeps the clause off every paper, and nobody sees that it is"
        " missing. A limit is a number, or a quantity with its unit.",
        _DOGS.format(file=_FILE, name="terms.our-dogs", when="area: {over: 500 ft2}"),
        _DOGS.format(file=_FILE, name="terms.our-dogs", when="area: {over: 500}"),
        laid=True,
    ),
)  # fmt: skip
