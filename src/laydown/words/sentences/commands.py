"""What the commands print beside plans and papers."""

from laydown.words.catalogue import Counted, Sentence, sentences

TABLE = sentences(
    # what is wrong with a file or a call
    Counted("cannot-use", "cannot use {file}: {count} problem", "cannot use {file}: {count} problems"),
    Counted(
        "cannot-use-call", "cannot use this call: {count} problem", "cannot use this call: {count} problems"
    ),
    Sentence("problem", "{where}: {what}"),
    Sentence("problem-and-hint", "{where}: {what} ({hint})"),
    Sentence("checked-good", "{file}: {paper}, good"),
    Counted("checked-faulty", "{file}: {count} problem", "{file}: {count} problems"),
    Sentence("stopped", "stopped"),
    Sentence("fault-in-laydown", "fault in laydown: {kind}: {said}"),
    Sentence(
        "fault-in-laydown.do", "the same call with --debug shows where; please report it with the job file"
    ),
    # what was written
    Sentence("wrote", "wrote {path}"),
    Sentence("wrote-leaf", "wrote {path}; print it on both sides of one leaf"),
    Sentence("wrote-sample", "wrote [sample] into {job}"),
    Sentence("nothing-entered", "nothing was entered; the job stays as it is"),
    Sentence("job-stays", "the job file stays as it is; --save writes this into it"),
    Counted("wrote-files", "wrote {count} file into {folder}", "wrote {count} files into {folder}"),
    Counted(
        "wrote-demonstration",
        "wrote {count} file into {folder}; the job: {job}",
        "wrote {count} files into {folder}; the job: {job}",
    ),
    Counted(
        "wrote-job",
        "wrote {path}: {count} panel; next: laydown check {path}, laydown plan {path}",
        "wrote {path}: {count} panels; next: laydown check {path}, laydown plan {path}",
    ),
    Sentence("listed-side", "{shape}, {side}: {area_m2}, {side_status}"),
    # what was tried
    Sentence("tried-head.change", "change"),
    Sentence("tried-head.verdict", "verdict"),
    Sentence("tried-head.join", "weakest join"),
    Sentence("tried-head.margin", "margin"),
    Sentence("tried-head.wet", "wet"),
    Sentence("tried-head.minutes", "minutes"),
    Sentence("tried-no-join", "none"),
    Sentence("tried-sheet", "sheet!"),
    Sentence("tried-key.join", "weakest join: e2.1 is effect coat 2, its first join; wet: of 100 cases"),
    Sentence(
        "tried-key.minutes",
        "minutes: to the end of the day's plan; below the first row, the difference to it",
    ),
    # a mix that is put right or made smaller
    Sentence("poured-head", "{short_layer}: {product}, about {mix_ml}; press zero with the empty cup only"),
    Sentence("poured-column.line", "line"),
    Sentence("poured-column.cup", "in cup g"),
    Sentence("poured-column.add", "add g"),
    Sentence("poured-column.scale", "SCALE g"),
    Sentence("poured-limits", "pot life {pot_life_s}; never mix less than {least_g}"),
    Sentence("poured-limits-unknown", "pot life not on the sheet; never mix less than {least_g}"),
    Sentence("poured-decided", "{decision}: {text}"),
    Sentence("poured-ask", "ASK THE SHEET: {ask}"),
    Sentence("poured-reading", "{reading}: {water_g}"),
    # serving the pages
    Sentence("plan-left-book", "the plan is not in the book any more; choose another --database"),
    Sentence("ready", "ready {address}"),
    Sentence("is-no-file", "is no file"),
    Sentence("certificate-and-key", "give both, or neither: then the shop makes its own"),
    Sentence(
        "authority-left-aside", "holds the shop's own authority, which --certificate and --key leave aside"
    ),
    Sentence("authority-left-aside.hint", "leave one of the two out"),
    Sentence("certificates-with-tls", "certificates are used with --tls only"),
    Sentence("shop-authority", "shop authority: {file}"),
    Sentence("shop-authority-new", "shop authority, new: {file}"),
    Sentence("install-authority", "install it once on every tablet: docs/howto/trust-the-desk.md"),
    Sentence("certificate-good-for", "good for {names:, }; renewed by itself before {ends}"),
    Sentence("cannot-be-had", "cannot be had: {reason}"),
    Sentence("choose-another-port", "stop the other program, or choose another --port"),
    Sentence("choose-another-host", "choose another --host"),
    Sentence("host-without-password", "reaches other machines, and no manager has a password"),
    Sentence(
        "host-without-password.hint", "first: laydown serve --set-password NAME (with the same --database)"
    ),
    Sentence("ask-password", "Password"),
    Sentence("password-kept", "{name}: {user}, password kept"),
    Sentence("folder-cannot-be-made", "cannot be made: {reason}"),
    Sentence("choose-another-file", "choose another file"),
)
