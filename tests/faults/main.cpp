#include <gtest/gtest.h>

#include "tests/faults/injector.h"

int main(int count, char** arguments) {
    tarebook::tests::watchMemory();
    testing::InitGoogleTest(&count, arguments);
    return RUN_ALL_TESTS();
}
