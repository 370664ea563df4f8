#include "desktop/imgui_on_sfml.h"

#include <GL/gl.h>
#include <backends/imgui_impl_opengl3.h>
#include <imgui.h>

#include <SFML/Graphics/Image.hpp>
#include <cstdint>
#include <vector>

#include "desktop/layout.h"
#include "desktop/style/ink.h"
#include "desktop/style/type.h"

namespace voltfall {
namespace {

void map_keys(ImGuiIO& io) {
  using sf::Keyboard;
  io.KeyMap[ImGuiKey_Tab] = Keyboard::Tab;
  io.KeyMap[ImGuiKey_LeftArrow] = Keyboard::Left;
  io.KeyMap[ImGuiKey_RightArrow] = Keyboard::Right;
  io.KeyMap[ImGuiKey_UpArrow] = Keyboard::Up;
  io.KeyMap[ImGuiKey_DownArrow] = Keyboard::Down;
  io.KeyMap[ImGuiKey_PageUp] = Keyboard::PageUp;
  io.KeyMap[ImGuiKey_PageDown] = Keyboard::PageDown;
  io.KeyMap[ImGuiKey_Home] = Keyboard::Home;
  io.KeyMap[ImGuiKey_End] = Keyboard::End;
  io.KeyMap[ImGuiKey_Delete] = Keyboard::Delete;
  io.KeyMap[ImGuiKey_Backspace] = Keyboard::Backspace;
  io.KeyMap[ImGuiKey_Space] = Keyboard::Space;
  io.KeyMap[ImGuiKey_Enter] = Keyboard::Enter;
  io.KeyMap[ImGuiKey_Escape] = Keyboard::Escape;
  io.KeyMap[ImGuiKey_A] = Keyboard::A;
  io.KeyMap[ImGuiKey_C] = Keyboard::C;
  io.KeyMap[ImGuiKey_V] = Keyboard::V;
  io.KeyMap[ImGuiKey_X] = Keyboard::X;
  io.KeyMap[ImGuiKey_Y] = Keyboard::Y;
  io.KeyMap[ImGuiKey_Z] = Keyboard::Z;
}

// A letter drawn pixel for pixel needs no mixing of its neighbours, which without a graphics card takes a fifth of a
// frame's time.
void set_filter(GLint filter) {
  glBindTexture(GL_TEXTURE_2D, static_cast<GLuint>(reinterpret_cast<std::uintptr_t>(ImGui::GetIO().Fonts->TexID)));
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, filter);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, filter);
}

}  // namespace

void set_up_imgui_io() {
  ImGuiIO& io = ImGui::GetIO();
  io.IniFilename = nullptr;
  io.ConfigInputTextCursorBlink = false;  // nothing flashes
  map_keys(io);
  ImGuiStyle& style = ImGui::GetStyle();
  style.WindowPadding = {0, 0};
  style.AntiAliasedLinesUseTex = false;  // lines of its texture need the mixing that `set_filter` does without
  style.WindowBorderSize = 0;
  style.FrameRounding = 0;
  style.WindowRounding = 0;
}

ImguiOnSfml::ImguiOnSfml(sf::Window& window) : window_(window) {
  ImGui::CreateContext();
  set_up_imgui_io();
  problem_ = load_type(*ImGui::GetIO().Fonts);
  if (!problem_ && !ImGui_ImplOpenGL3_Init("#version 130")) problem_ = "OpenGL 3 is not available in this display";
}

ImguiOnSfml::~ImguiOnSfml() {
  if (!problem_) ImGui_ImplOpenGL3_Shutdown();
  ImGui::DestroyContext();
}

void ImguiOnSfml::let_go() {
  ImGuiIO& io = ImGui::GetIO();
  std::fill(std::begin(io.KeysDown), std::end(io.KeysDown), false);
  std::fill(std::begin(io.MouseDown), std::end(io.MouseDown), false);
  io.KeyCtrl = io.KeyShift = io.KeyAlt = false;
  up_next_frame_.reset();
  button_up_next_frame_.reset();
}

ImVec2 ImguiOnSfml::on_sheet(int x, int y) const {
  return {static_cast<float>(x) / shrunk_, static_cast<float>(y) / shrunk_};
}

void ImguiOnSfml::take(const sf::Event& event) {
  ImGuiIO& io = ImGui::GetIO();
  const auto key = static_cast<std::size_t>(event.key.code);
  const auto button = static_cast<std::size_t>(event.mouseButton.button);
  switch (event.type) {
    case sf::Event::MouseMoved:
      io.MousePos = on_sheet(event.mouseMove.x, event.mouseMove.y);
      break;
    case sf::Event::MouseButtonPressed:
      io.MousePos = on_sheet(event.mouseButton.x, event.mouseButton.y);
      if (button < button_fresh_.size()) io.MouseDown[button] = true, button_fresh_.set(button);
      break;
    case sf::Event::MouseButtonReleased:
      if (button >= button_fresh_.size()) break;
      if (button_fresh_[button])
        button_up_next_frame_.set(button);
      else
        io.MouseDown[button] = false;
      break;
    case sf::Event::MouseWheelScrolled:
      if (event.mouseWheelScroll.wheel == sf::Mouse::VerticalWheel) io.MouseWheel += event.mouseWheelScroll.delta;
      break;
    case sf::Event::KeyPressed:
      io.KeyShift = event.key.shift;
      io.KeyCtrl = event.key.control;
      io.KeyAlt = event.key.alt;
      // A held key repeats; only its first press is fresh.
      if (key < fresh_.size() && !io.KeysDown[key]) io.KeysDown[key] = true, fresh_.set(key);
      break;
    case sf::Event::KeyReleased:
      io.KeyShift = event.key.shift;
      io.KeyCtrl = event.key.control;
      io.KeyAlt = event.key.alt;
      if (key >= fresh_.size()) break;
      if (fresh_[key])
        up_next_frame_.set(key);
      else
        io.KeysDown[key] = false;
      break;
    case sf::Event::TextEntered:
      if (event.text.unicode >= 32 && event.text.unicode != 127) io.AddInputCharacter(event.text.unicode);
      break;
    case sf::Event::LostFocus:
      let_go();
      break;
    default:
      break;
  }
}

void ImguiOnSfml::begin_frame(double frame_s) {
  ImGuiIO& io = ImGui::GetIO();
  const sf::Vector2u size = window_.getSize();
  const float width = static_cast<float>(size.x), height = static_cast<float>(size.y);
  shrunk_ = shrunk_to(width, height);
  io.DisplaySize = {width / shrunk_, height / shrunk_};
  io.DisplayFramebufferScale = {shrunk_, shrunk_};
  io.DeltaTime = static_cast<float>(frame_s);
  ImGui_ImplOpenGL3_NewFrame();
  ImGui::NewFrame();
}

void ImguiOnSfml::end_frame() {
  ImGui::Render();
  const ImVec4 paper = ImGui::ColorConvertU32ToFloat4(ink::paper);
  const sf::Vector2u size = window_.getSize();
  glViewport(0, 0, static_cast<GLsizei>(size.x), static_cast<GLsizei>(size.y));
  glClearColor(paper.x, paper.y, paper.z, 1.0F);
  glClear(GL_COLOR_BUFFER_BIT);
  set_filter(shrunk_ == 1.0F ? GL_NEAREST : GL_LINEAR);
  ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
  ImGuiIO& io = ImGui::GetIO();
  for (std::size_t i = 0; i < up_next_frame_.size(); ++i) {
    if (up_next_frame_[i]) io.KeysDown[i] = false;
  }
  for (std::size_t i = 0; i < button_up_next_frame_.size(); ++i) {
    if (button_up_next_frame_[i]) io.MouseDown[i] = false;
  }
  fresh_.reset();
  up_next_frame_.reset();
  button_fresh_.reset();
  button_up_next_frame_.reset();
}

std::string ImguiOnSfml::save_picture(const Rect& zone, const std::filesystem::path& file) const {
  const auto width = static_cast<unsigned>(zone.w * shrunk_), height = static_cast<unsigned>(zone.h * shrunk_);
  if (width == 0 || height == 0) return "there is nothing to save";
  std::vector<sf::Uint8> pixels(std::size_t{4} * width * height);
  // OpenGL counts rows from the bottom.
  const int bottom = static_cast<int>(window_.getSize().y) - static_cast<int>(zone.bottom() * shrunk_);
  glReadPixels(static_cast<GLint>(zone.x * shrunk_), bottom, static_cast<GLsizei>(width), static_cast<GLsizei>(height),
               GL_RGBA, GL_UNSIGNED_BYTE, pixels.data());
  sf::Image picture;
  picture.create(width, height, pixels.data());
  picture.flipVertically();
  std::filesystem::path beside = file;
  beside.replace_filename("." + file.filename().string());
  if (!picture.saveToFile(beside.string())) return "can't be written";
  std::error_code failed;
  std::filesystem::rename(beside, file, failed);
  return failed ? failed.message() : std::string();
}

}  // namespace voltfall
