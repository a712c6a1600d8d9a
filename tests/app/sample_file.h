#pragma once

#include <map>

#include "tests/app/ctl.h"

namespace tarebook::tests {

/// Tests that each begin with the same sample shop. It is made once a program: what a test does to its file
/// the others do not see.
class SampleFileTest : public CtlTest {
protected:
    /// `s.tarebook`, as `tarebookctl sample` makes it with these options.
    void makeSample(const std::string& options) const {
        static std::map<std::string, std::string> made; // bytes of the file by how it is made
        std::string& bytes = made[m_now + " " + options];
        if (bytes.empty()) {
            good("sample s.tarebook " + options);
            bytes = read(file("s.tarebook"));
        } else {
            write("s.tarebook", bytes);
        }
    }
};

} // namespace tarebook::tests
