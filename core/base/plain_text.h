#pragma once

#include <string>
#include <string_view>

namespace tarebook {

/// The first character that a text of one line cannot have, in words: `a tab`, `a line break` (also U+2028
/// and U+2029), `the control character U+001B` for the others of Unicode's general category Cc (U+0000 to
/// U+001F, U+007F to U+009F), which a terminal may take as commands (ISO/IEC 6429), or `the direction mark
/// U+202E` for the embeddings, overrides and isolates of Unicode's annex 9 (U+202A to U+202E, U+2066 to
/// U+2069), behind which digits are shown in another order than they stand. Empty: there is none.
[[nodiscard]] std::string controlIn(std::string_view text);

/// Makes a stream of UTF-8 harmless to a terminal, piece by piece. Tabs, line feeds and the carriage return
/// before one pass; every other control character becomes its picture of Unicode's block Control Pictures
/// (U+2400 to U+2421), those of U+0080 to U+009F, which have none, U+FFFD.
class ControlPictures {
public:
    /// What can be shown of what came so far. A piece may end within a character.
    [[nodiscard]] std::string shown(std::string_view piece);
    /// What was held back, once no more comes.
    [[nodiscard]] std::string rest();

private:
    char m_held = 0; // the first half of what may be a control character, or a carriage return
};

/// The same of a whole text.
[[nodiscard]] std::string withControlPictures(std::string_view text);

/// The text on one line, for a cell of a table: whatever controlIn() names is its picture, or U+FFFD where it
/// has none; so no text of an earlier program can look like a further row.
[[nodiscard]] std::string onOneLine(std::string_view text);

/// A JSON text (RFC 8259) in which U+007F to U+009F, which it may hold as they are, are escaped: the values
/// of its strings stay what they were.
[[nodiscard]] std::string withControlsEscaped(std::string_view json);

} // namespace tarebook
