#pragma once

#include "core/shop/questions.h"

namespace tarebook {

// One function a question, for questions.cpp alone; what each needs has been checked before.

// question_gas.cpp, question_balance.cpp: where gas came from and went
[[nodiscard]] Result<QuestionAnswer> answerBought(Shop& shop, const QuestionInput& input);
[[nodiscard]] Result<QuestionAnswer> answerWhereWent(Shop& shop, const QuestionInput& input);
[[nodiscard]] Result<QuestionAnswer> answerMassBalance(Shop& shop, const QuestionInput& input);
[[nodiscard]] Result<QuestionAnswer> answerByClass(Shop& shop, const QuestionInput& input);
[[nodiscard]] Result<QuestionAnswer> answerPotentials(Shop& shop, const QuestionInput& input);
[[nodiscard]] Result<QuestionAnswer> answerLosses(Shop& shop, const QuestionInput& input);
[[nodiscard]] Result<QuestionAnswer> answerOtherOwners(Shop& shop, const QuestionInput& input);
[[nodiscard]] Result<QuestionAnswer> answerReclaimed(Shop& shop, const QuestionInput& input);
[[nodiscard]] Result<QuestionAnswer> answerWeighed(Shop& shop, const QuestionInput& input);
[[nodiscard]] Result<QuestionAnswer> answerCustomerYear(Shop& shop, const QuestionInput& input);
[[nodiscard]] Result<QuestionAnswer> answerEndOfRemoved(Shop& shop, const QuestionInput& input);

// question_balances.cpp: piece by piece
[[nodiscard]] Result<QuestionAnswer> answerBalances(Shop& shop, const QuestionInput& input);

// question_held.cpp, question_retests.cpp: with a picture
[[nodiscard]] Result<QuestionAnswer> answerHeld(Shop& shop, const QuestionInput& input);
[[nodiscard]] Result<QuestionAnswer> answerFallsDue(Shop& shop, const QuestionInput& input);

// question_registers.cpp, question_papers.cpp: people, machines, cylinders, equipment, what was sent
[[nodiscard]] Result<QuestionAnswer> answerTechnicians(Shop& shop, const QuestionInput& input);
[[nodiscard]] Result<QuestionAnswer> answerMachines(Shop& shop, const QuestionInput& input);
[[nodiscard]] Result<QuestionAnswer> answerDisposed(Shop& shop, const QuestionInput& input);
[[nodiscard]] Result<QuestionAnswer> answerDisposalTotals(Shop& shop, const QuestionInput& input);
[[nodiscard]] Result<QuestionAnswer> answerSent(Shop& shop, const QuestionInput& input);
[[nodiscard]] Result<QuestionAnswer> answerReceipts(Shop& shop, const QuestionInput& input);
[[nodiscard]] Result<QuestionAnswer> answerAdditions(Shop& shop, const QuestionInput& input);
[[nodiscard]] Result<QuestionAnswer> answerChronic(Shop& shop, const QuestionInput& input);
[[nodiscard]] Result<QuestionAnswer> answerUnits(Shop& shop, const QuestionInput& input);
[[nodiscard]] Result<QuestionAnswer> answerCylinder(Shop& shop, const QuestionInput& input);
[[nodiscard]] Result<QuestionAnswer> answerHolders(Shop& shop, const QuestionInput& input);
[[nodiscard]] Result<QuestionAnswer> answerLost(Shop& shop, const QuestionInput& input);
[[nodiscard]] Result<QuestionAnswer> answerNonconforming(Shop& shop, const QuestionInput& input);
[[nodiscard]] Result<QuestionAnswer> answerOverruled(Shop& shop, const QuestionInput& input);
[[nodiscard]] Result<QuestionAnswer> answerRecords(Shop& shop, const QuestionInput& input);

// question_lists.cpp: lists with what the rules say of each row
[[nodiscard]] Result<QuestionAnswer> answerLeakRates(Shop& shop, const QuestionInput& input);
[[nodiscard]] Result<QuestionAnswer> answerVans(Shop& shop, const QuestionInput& input);
[[nodiscard]] Result<QuestionAnswer> answerPressures(Shop& shop, const QuestionInput& input);

} // namespace tarebook
