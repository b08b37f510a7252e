// SPDX-License-Identifier: MIT
#include "solid/step.hpp"

#include <APIHeaderSection_MakeHeader.hxx>
#include <Interface_Static.hxx>
#include <Message.hxx>
#include <Message_Messenger.hxx>
#include <STEPControl_Writer.hxx>
#include <StepBasic_Product.hxx>
#include <StepData_Protocol.hxx>
#include <StepData_StepModel.hxx>
#include <StepData_StepWriter.hxx>
#include <TCollection_HAsciiString.hxx>
#include <TopoDS_Shape.hxx>
#include <cstdint>
#include <sstream>
#include <utility>

#include "solid/kernel_call.hpp"

namespace backfit {
namespace {

// Stands for the part's name in what the kernel writes, because it doesn't encode foreign letters.
const char* const name_mark = "backfit-part-name";

Handle(TCollection_HAsciiString) text_of(std::string_view text) {
  return new TCollection_HAsciiString(std::string(text).c_str());
}

// The first character of `utf8` and its length in bytes; U+FFFD and 1 where it isn't UTF-8.
std::pair<std::uint32_t, std::size_t> first_character(std::string_view utf8) {
  const auto byte = [&utf8](std::size_t i) {
    return i < utf8.size() ? static_cast<std::uint32_t>(static_cast<unsigned char>(utf8[i])) : 0U;
  };
  const std::uint32_t lead = byte(0);
  if (lead < 0x80) {
    return {lead, 1};
  }
  const std::size_t length = lead >= 0xf0 ? 4 : lead >= 0xe0 ? 3 : 2;
  std::uint32_t character = lead & (0xffU >> (length + 1));
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte(i) & 0xc0U) != 0x80) {
      return {0xfffd, 1};
    }
    character = character << 6U | (byte(i) & 0x3fU);
  }
  const bool possible = lead >= 0xc2 && lead < 0xf5 && character <= 0x10ffff;
  return possible ? std::pair{character, length} : std::pair<std::uint32_t, std::size_t>{0xfffd, 1};
}

// UTF-8 text as it stands between the quotes of a string in ISO 10303-21 (clause 6.4.3).
std::string encoded(std::string_view utf8) {
  static const char* const digits = "0123456789ABCDEF";
  std::string out;
  while (!utf8.empty()) {
    const auto [character, length] = first_character(utf8);
    if (character == '\'' || character == '\\') {
      out.append(2, static_cast<char>(character));
    } else if (character >= 0x20 && character < 0x7f) {
      out += static_cast<char>(character);
    } else {
      const bool wide = character > 0xffff;
      out += wide ? "\\X4\\" : "\\X2\\";
      for (int shift = wide ? 28 : 12; shift >= 0; shift -= 4) {
        out += digits[character >> shift & 0xfU];
      }
      out += "\\X0\\";
    }
    utf8.remove_prefix(length);
  }
  return out;
}

void replace_all(std::string& text, std::string_view from, std::string_view to) {
  for (std::size_t at = text.find(from); at != std::string::npos;
       at = text.find(from, at + to.size())) {
    text.replace(at, from.size(), to);
  }
}

// The kernel numbers products over the life of the process; ours has a name instead.
void name_product(const Handle(StepData_StepModel) & model) {
  for (int i = 1; i <= model->NbEntities(); ++i) {
    const Handle(StepBasic_Product) product = Handle(StepBasic_Product)::DownCast(model->Entity(i));
    if (!product.IsNull()) {
      product->SetId(text_of(name_mark));
      product->SetName(text_of(name_mark));
    }
  }
}

void write_header(const Handle(StepData_StepModel) & model, std::string_view time_stamp) {
  APIHeaderSection_MakeHeader header(model);
  header.SetDescriptionValue(1, text_of("solid body"));
  header.SetName(text_of(name_mark));
  header.SetTimeStamp(text_of(time_stamp));
  header.SetAuthorValue(1, text_of(""));
  header.SetOrganizationValue(1, text_of(""));
  header.SetOriginatingSystem(text_of("Backfit"));
  header.SetAuthorisation(text_of(""));
}

}  // namespace

std::string step_file(const Solid& body, std::string_view part_name, std::string_view time_stamp) {
  return kernel_call("writing STEP", [&] {
    Message::DefaultMessenger()->ChangePrinters().Clear();  // standard output is the caller's
    STEPControl_Writer writer;  // makes the settings below known, so it comes first
    Interface_Static::SetCVal("write.step.schema", "AP214IS");
    Interface_Static::SetCVal("write.step.unit", "MM");
    if (writer.Transfer(body.kernel_shape(), STEPControl_AsIs) != IFSelect_RetDone) {
      throw SolidFailure("writing STEP: the geometry kernel can't translate the body");
    }
    const Handle(StepData_StepModel) model = writer.Model();
    name_product(model);
    write_header(model, time_stamp);

    StepData_StepWriter text(model);
    text.SendModel(Handle(StepData_Protocol)::DownCast(model->Protocol()));
    std::ostringstream stream;
    if (!text.Print(stream)) {
      throw SolidFailure("writing STEP: the geometry kernel can't write the file");
    }
    std::string bytes = stream.str();
    replace_all(bytes, name_mark, encoded(part_name));
    return bytes;
  });
}

}  // namespace backfit
