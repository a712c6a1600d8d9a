#pragma once

namespace tarebook {

/// What a tag or a slip is printed on.
enum class LabelForm {
    inches4x6, // a label of 4 x 6 in
    mm62,      // from a roll 62 mm wide, as long as it needs
    letter,    // a sheet of 8.5 x 11 in
    a4,
};

} // namespace tarebook
