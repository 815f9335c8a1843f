"""What can be wrong with a workbook that is to be imported.

Takes in nothing; gives out the rules, each with what happens at the truck if it is let through.
Refuses rules without a reason.
"""

from guidegen.finding import Rule, Severity

NOT_A_WORKBOOK = Rule(
    "not-a-workbook", "what the clerk entered cannot be read, and the trucks keep their old values"
)
OTHER_WORKBOOK = Rule(
    "other-workbook",
    "columns that mean something else would put one value in the place of another",
)
EXPORT_NOT_KEPT = Rule(
    "export-not-kept",
    "without what was exported nobody can tell a new value from one that is older than the record",
)
SHEET_GONE = Rule("sheet-gone", "what the clerk changed on that sheet would be lost without a word")
SHEET_UNKNOWN = Rule("sheet-unknown", "what stands on that sheet reaches no truck's guide")
MERGED_CELLS = Rule(
    "merged-cells", "of merged cells only one holds a value, and nobody knows for which truck"
)
FORMULA_IN_CELL = Rule(
    "formula-in-cell", "a value that changes by itself was copied from no plate or handbook"
)
NOT_TYPED_AS_TEXT = Rule(
    "not-typed-as-text",
    "a program for spreadsheets drops zeros and turns text into dates, so that the truck gets"
    " another value than the one that was typed",
)
HEADER_CHANGED = Rule(
    "header-changed", "a value under another header is printed as something that it is not"
)
KEY_CHANGED = Rule("key-changed", "the values of one truck would be given to another")
ROW_MOVED = Rule("row-moved", "rows that moved would give the values of one truck to another")
ROW_TWICE = Rule("row-twice", "of two rows for one truck nobody knows which holds")
ROW_WITHOUT_KEY = Rule("row-without-key", "values that belong to no truck reach no guide")
ROW_OF_NOBODY = Rule("row-of-nobody", "values of a truck that nobody has entered reach no guide")
MODEL_MISSING = Rule("model-missing", "a truck without a model inherits nothing")
CELL_OUT_OF_PLACE = Rule(
    "cell-out-of-place", "what stands outside of the table reaches no truck's guide"
)
CHANGED_ON_BOTH_SIDES = Rule(
    "changed-on-both-sides", "one of two new values would be lost, and it may be the right one"
)
RECORD_GONE = Rule("record-gone", "a truck that was taken out would come back with half its values")
NOT_FITTED_IN_VALUE = Rule(
    "not-fitted-in-value",
    "steps are chosen by whether the whole thing is there, not by one of its values",
)
VALUE_NOT_FITTED = Rule(
    "value-not-fitted", "a truck cannot both lack a thing and have a value of it"
)
FITTED_WITHOUT_VALUE = Rule(
    "fitted-without-value", "a thing of which nothing is on record gives the driver no step to take"
)
FITTED_UNCLEAR = Rule(
    "fitted-unclear", "steps are printed or left out by this word, so it may not be guessed"
)
OLD_SOURCE_KEPT = Rule(
    "old-source-kept",
    "whoever looks the value up would look in a document that says another",
    Severity.WARNING,
)
NOT_EDITABLE = Rule(
    "not-editable", "a file that is written in an unusual way could lose what it says"
)
CHANGED_MEANWHILE = Rule(
    "changed-meanwhile", "the newer values of whoever saved the file would be lost"
)
CANNOT_WRITE = Rule("cannot-write", "the trucks keep their old values until this is mended")
IMPORT_UNFINISHED = Rule(
    "import-unfinished", "some trucks would have their new values and others their old ones"
)
WORKBOOK_IN_THE_WAY = Rule(
    "workbook-in-the-way", "what a clerk has entered and nobody has imported would be lost"
)
