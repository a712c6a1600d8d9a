#include "app/command.h"

int main(int argc, char** argv) {
    return tarebook::runCommandLine(argc, argv, nullptr);
}
