#pragma once

#include <QString>

namespace tarebook {

class Photographer;
class Program;
class Shop;
struct Environment;

/// A cylinder with something to say: the worst of the fleet.
[[nodiscard]] QString worstSerial(Shop& shop);

/// Of a copy of the shop: what is asked of a cylinder, of an entry and in between, and a batch from its terms
/// to its end.
void photographWhatIsRecorded(Shop& shop, Photographer& camera);
/// What is seen before there is a shop, and the places of one that has nothing in it yet.
void photographBeginning(Program& program, const Environment& environment, Photographer& camera);

} // namespace tarebook
